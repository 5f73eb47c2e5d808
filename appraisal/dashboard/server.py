"""The server process: as Streamlit's own command line starts it, with the screens brought in ahead."""

from __future__ import annotations

from appraisal.dashboard import ahead


def main() -> None:
    """Serve until ended; arguments as for Streamlit's own command."""
    import streamlit.web.bootstrap  # noqa: F401 - whole, before the thread starts
    from streamlit.web.cli import main as serve

    ahead.begin()
    serve(prog_name="streamlit")


if __name__ == "__main__":
    main()
