"""The mixed feed, month by month: tonnes, dry matter, volatile solids, and the grit that stays behind."""

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line()
def tonnes_fed(each_substrate_tonnes, water_tonnes):
    """Fed in all [t/month]

    All substrates and the water that comes with them.
    """
    return total(each_substrate_tonnes) + water_tonnes


@line()
def dry_matter_fed(each_substrate_dry_matter):
    """Dry matter fed [t/month]

    Of all substrates.
    """
    return total(each_substrate_dry_matter)


@line()
def volatile_solids_fed(each_substrate_volatile_solids):
    """Volatile solids fed [t/month]

    Of all substrates.
    """
    return total(each_substrate_volatile_solids)


@line()
def grit_settled(each_substrate_grit):
    """Grit that settles in the tank [t/month]

    Of all herds, from sand bedding. It stays until a clean-out and is in no flow through the tank.
    """
    return total(each_substrate_grit)
