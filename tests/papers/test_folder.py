"""The folder that papers go to."""

from __future__ import annotations

from pathlib import Path

import pytest

from appraisal.reports import papers as made


def test_a_folder_that_cannot_be_made_is_told_before_the_work(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("kept", encoding="utf-8")
    with pytest.raises(made.PapersError, match="file is no folder that can be written to; nothing was written"):
        made.refuse_what_stands(tmp_path / "file" / "papers", replace=False)
    made.refuse_what_stands(tmp_path / "new" / "papers", replace=False)
    assert (tmp_path / "file").read_text(encoding="utf-8") == "kept"
