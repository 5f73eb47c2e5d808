"""Feed for animals that lived on the leftovers the digester now gets."""

from appraisal.lines.define import line


@line(per="substrate", when={"substrate_origin": "feed"}, role="running_cost")
def substrate_replacement_feed(
    substrate_tonnes, substrate_fed_before_share, substrate_replacement_feed_cost_per_t, inflation_index
):
    """Feed bought instead of leftovers [money/month]

    Tonnes that fed animals before x cost of other feed.
    """
    return -(substrate_tonnes * substrate_fed_before_share * substrate_replacement_feed_cost_per_t * inflation_index)
