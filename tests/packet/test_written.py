"""The old file stays whole until the new one is complete."""

from __future__ import annotations

from pathlib import Path

import pytest

from permitkit.errors import OutputError
from permitkit.packet.written import write_whole


def test_the_new_bytes_take_the_old_ones_place(tmp_path: Path) -> None:
    path = tmp_path / "packet.pdf"
    path.write_bytes(b"old")

    write_whole(path, b"new")

    assert path.read_bytes() == b"new"
    assert [p.name for p in tmp_path.iterdir()] == ["packet.pdf"]


def test_a_failed_write_leaves_the_old_file_and_no_litter(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "packet.pdf"
    path.write_bytes(b"old")

    def refuse(*_: object) -> Path:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "replace", refuse)
    with pytest.raises(OutputError, match="permission denied"):
        write_whole(path, b"new")

    assert path.read_bytes() == b"old"
    assert [p.name for p in tmp_path.iterdir()] == ["packet.pdf"]


def test_a_missing_folder_is_told(tmp_path: Path) -> None:
    with pytest.raises(OutputError) as caught:
        write_whole(tmp_path / "no" / "packet.pdf", b"new")

    assert caught.value.exit_code == 4
