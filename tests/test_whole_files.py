"""New files are whole or not there, whatever the disk or another writer does in the midst."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest
from click.testing import CliRunner

from appraisal.cli import main
from appraisal.reports import papers
from appraisal.whole_files import create, write_together

FULL = OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


class FullDisk:
    """A file object of a disk that takes a few bytes and no more."""

    def __init__(self, path: Path) -> None:
        self.path = path

    def __enter__(self) -> FullDisk:
        return self

    def __exit__(self, *_: object) -> None:
        return None

    def write(self, content: bytes) -> int:
        handle = os.open(self.path, os.O_CREAT | os.O_WRONLY)
        os.write(handle, content[:3])
        os.close(handle)
        raise FULL


def files(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_a_file_begun_on_a_full_disk_is_taken_away(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with monkeypatch.context() as patched:
        patched.setattr(Path, "open", lambda path, *_, **__: FullDisk(path))
        with pytest.raises(OSError, match="No space left"):
            create(tmp_path / "a", b"content")
    assert files(tmp_path) == {}


def test_a_file_that_stands_or_a_link_to_nowhere_is_never_written_over(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"mine")
    (tmp_path / "link").symlink_to(tmp_path / "nowhere")
    for name in ("a", "link"):
        with pytest.raises(FileExistsError):
            create(tmp_path / name, b"new")
        with pytest.raises(FileExistsError):
            write_together({tmp_path / name: b"new"}, replace=False)
    assert files(tmp_path) == {"a": b"mine"} and not (tmp_path / "nowhere").exists()


def test_when_one_of_many_finds_no_room_nothing_has_changed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "a").write_bytes(b"old")
    left = [2]

    def sync(number: int) -> None:
        left[0] -= 1
        if left[0] < 0:
            raise FULL

    monkeypatch.setattr("os.fsync", sync)
    many = {"a": b"1", "deep/b": b"2", "deep/er/c": b"3"}
    with pytest.raises(papers.PapersError, match="no file was written in part"):
        papers.write(many, tmp_path, replace=True)
    assert files(tmp_path) == {"a": b"old"} and [path.name for path in tmp_path.iterdir()] == ["a"]


def test_a_writer_who_comes_between_keeps_his_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("os.fsync", lambda number: (tmp_path / "b").write_bytes(b"theirs"))
    with pytest.raises(papers.PapersError, match="left as it was"):
        papers.write({"a": b"1", "b": b"2"}, tmp_path, replace=False)
    assert (tmp_path / "b").read_bytes() == b"theirs"


def test_a_disk_without_second_names_takes_them_too(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def no_link(*_: object) -> None:
        raise OSError(errno.EPERM, "Operation not permitted")

    monkeypatch.setattr("os.link", no_link)
    papers.write({"a": b"1", "csv/b": b"2"}, tmp_path, replace=False)
    assert files(tmp_path) == {"a": b"1", "csv/b": b"2"}


@pytest.mark.parametrize("words", [("schema",), ("reference",), ("check", "--demo", "small_herd_manure_only")])
def test_output_that_finds_no_room_is_one_line_and_code_1(words: tuple[str, ...], monkeypatch: pytest.MonkeyPatch) -> None:
    said: list[str] = []

    def echo(text: str = "", *, err: bool = False, nl: bool = True) -> None:
        if not err:
            raise FULL
        said.append(text)

    monkeypatch.setattr("click.echo", echo)
    done = CliRunner().invoke(main, list(words))
    assert done.exit_code == 1 and said == ["Not finished: No space left on device"]


def test_papers_for_a_link_to_nowhere_or_a_name_too_long_are_refused_before_work(tmp_path: Path) -> None:
    (tmp_path / "link").symlink_to(tmp_path / "nowhere")
    for folder in (tmp_path / "link", tmp_path / "link" / "deeper", tmp_path / ("x" * 300)):
        with pytest.raises(papers.PapersError, match="nothing was written"):
            papers.refuse_what_stands(folder, replace=False)


@pytest.mark.parametrize("command", [("changes",), ("compare",)])
def test_the_faults_of_all_files_are_told_at_once(command: tuple[str, ...], tmp_path: Path) -> None:
    first, second = tmp_path / "first.toml", tmp_path / "second.toml"
    first.write_text("schema_version = 1\n[project]\nname = 3\n", encoding="utf-8")
    done = CliRunner().invoke(main, [*command, str(first), str(second)])
    lines = done.stderr.splitlines()
    assert done.exit_code == 3 and any(line.startswith(f"{first}:3: project.name") for line in lines)
    assert f"{second}: no such file" in lines and lines[-1].startswith(f"{len(lines) - 1} faults")


def test_more_futures_than_can_be_held_are_refused() -> None:
    done = CliRunner().invoke(main, ["simulate", "--demo", "small_herd_manure_only", "--draws", "9" * 20, "--method", "latin"])
    assert done.exit_code == 2 and "10000000" in done.stderr
