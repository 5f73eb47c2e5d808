"""The look: one light theme in settings, and the few rules of type and tables that settings cannot say."""

from __future__ import annotations

import streamlit as st

RULES = """
<style>
.block-container {max-width: 72rem; padding-top: 3rem}
[data-testid="stSidebarHeader"] {height: 2.5rem; padding-bottom: 0}
h1 {font-size: 2.1rem !important; padding-bottom: 0.2rem !important}
h2, h3 {font-size: 1.35rem !important}
[data-testid="stCaptionContainer"], [data-testid="stCaptionContainer"] p {color: #4b5157 !important; opacity: 1 !important}
[data-testid="stCaptionContainer"] {margin-top: -0.9rem}
[class*="st-key-scroll_"] {overflow-x: auto}
.whose {color: #4b5157; margin: 0 0 0.6rem 0}
.sheet, [class*="st-key-scroll_"] {background:
  linear-gradient(to right, white 30%, transparent) left / 2.5rem 100% no-repeat local,
  linear-gradient(to left, white 30%, transparent) right / 2.5rem 100% no-repeat local,
  linear-gradient(to right, #0003, transparent) left / 0.8rem 100% no-repeat scroll,
  linear-gradient(to left, #0003, transparent) right / 0.8rem 100% no-repeat scroll}
.sheet {overflow-x: auto; margin: 0 0 1.4rem 0}
.sheet table {border-collapse: collapse; font-variant-numeric: tabular-nums; font-size: 0.95rem}
.sheet caption {text-align: left; font-weight: 600; padding: 0.3rem 0; color: #1b1f23; caption-side: top}
.sheet th {text-align: left; border-bottom: 2px solid #1b1f23; padding: 0.25rem 0.9rem 0.25rem 0; vertical-align: bottom}
.sheet td {border-bottom: 1px solid #d9dcdf; padding: 0.25rem 0.9rem 0.25rem 0; vertical-align: top}
.sheet td.words {min-width: 6rem; max-width: 30rem}
.sheet caption span {display: inline-block; position: sticky; left: 0; max-width: min(100%, calc(100vw - 2.5rem))}
.sheet .number, .sheet .among {text-align: right}
.sheet td.number {white-space: nowrap}
.sheet th.number {max-width: 9rem}
[data-testid="stPageLink"] p {text-decoration: underline}
.finding {border-left: 3px solid #8a9096; padding: 0.1rem 0 0.1rem 0.8rem; margin: 0 0 0.8rem 0; max-width: 60rem}
.finding.warning {border-left: 5px double #D55E00}
.finding.stop {border-left: 7px solid #D55E00; background: #fdf3ec; padding: 0.5rem 0.8rem}
.finding .source {color: #4b5157; font-size: 0.9rem}
@media (max-width: 40rem) {
  h1 {font-size: 1.7rem !important}
  .sheet table {font-size: 0.88rem}
  .sheet td.words {min-width: 4.4rem}
  .sheet td.words:first-child:has(+ td.number) {min-width: 7rem}
  [class*="st-key-scroll_roomy_"] [data-testid="stVegaLiteChart"] {min-width: 34rem}}
@media print {
  [data-testid="stSidebar"], [data-testid="stHeader"], [data-testid="stPageLink"] {display: none}
  .sheet, [class*="st-key-scroll_"] {background: none; overflow: visible}
  [data-testid="stHeading"], .sheet caption {break-after: avoid}
  [class*="st-key-scroll_"], .sheet tr, .finding {break-inside: avoid}}
</style>
"""

TAB_STOPS = """
<script>
if (!window.tabStops) {
  window.tabStops = () => document.querySelectorAll('[class*="st-key-scroll_"]').forEach(frame => {
    if (frame.scrollWidth > frame.clientWidth && !frame.hasAttribute('tabindex')) {
      frame.tabIndex = 0;
      frame.setAttribute('role', 'region');
      frame.setAttribute('aria-label', 'A picture wider than the screen: the arrow keys move it sideways');
    }
  });
  setInterval(window.tabStops, 1000);
}
</script>
"""


def lay_down() -> None:
    """Put the rules on the page, and a tab stop on pictures that scroll; neither holds text of a user."""
    st.html(RULES)
    st.html(TAB_STOPS, unsafe_allow_javascript=True)
