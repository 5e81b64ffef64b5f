"""The old file stays whole until the new one is complete; what a portal would not take."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from pypdf import PdfWriter
from town import rules

from permitkit.errors import OutputError
from permitkit.packet.written import not_taken, write_whole

if TYPE_CHECKING:
    from permitkit.study.in_force import RulesInForce


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


PORTAL = """[rule]
packet.files = {{ items = [{}], cite = "code 2" }}
"""


def pdf(width: float, height: float) -> bytes:
    whole = PdfWriter()
    whole.add_blank_page(612, 792)
    whole.add_blank_page(width, height)
    target = BytesIO()
    whole.write(target)
    return target.getvalue()


def takes(items: str) -> RulesInForce:
    return rules(PORTAL.format(items))


def test_a_file_at_the_portal_s_size_is_taken_and_one_byte_more_is_not() -> None:
    portal = takes('{ name = "size", number = "2 KB" }')

    assert not_taken(portal, b"x" * 2000) == ()
    assert not_taken(portal, b"x" * 2001) == (
        "2.0 KB, and the portal takes 2 KB: bind in smaller photographs (Ford Code, section 2)",
    )


@pytest.mark.parametrize(
    ("paper", "width", "height", "taken"),
    [
        ("letter", 792, 612, True),
        ("letter", 792, 1224, False),
        ("Letter", 612, 792, True),
        ("A4", 595.3, 841.9, False),
    ],
)
def test_a_page_of_another_size_than_the_portal_s_is_told(
    paper: str, width: float, height: float, *, taken: bool
) -> None:
    portal = takes(f'{{ name = "page size", number = "{paper}" }}')

    assert (not_taken(portal, pdf(width, height)) == ()) is taken


def test_a_town_that_says_nothing_of_files_takes_any() -> None:
    assert not_taken(rules(""), b"x") == ()
    assert not_taken(takes('"attached files: none"'), b"x") == ()
