"""`python -m appraisal` is the same as `appraisal`."""

from appraisal.cli import main

if __name__ == "__main__":
    main()
