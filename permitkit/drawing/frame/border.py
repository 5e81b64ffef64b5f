"""The border of a sheet and where everything stands in it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from permitkit.drawing.frame.legend import (
    LEGEND_WORDS,
    PITCH_MM,
    Entry,
    Item,
    filled,
    heading,
    hung,
    legend_entries,
    legend_item,
    paragraphs,
)
from permitkit.drawing.frame.title_block import TitleBlock, titled
from permitkit.drawing.lettering import wrapped
from permitkit.drawing.scale import Paper, ProfileScale, Scale
from permitkit.drawing.shapes import LEAST_LETTERING_MM, Box, Line, Pattern, Polygon, Role, Shape
from permitkit.drawing.sheet import Sheet, extent, labels_of
from permitkit.drawing.symbols import north_arrow, scale_bar

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

__all__ = ["continuation", "drawing_room", "framed"]

_LEFT_MM, _RIGHT_MM, _TOP_MM, _BOTTOM_MM = 12.0, 10.0, 10.0, 14.0
_COLUMN_MM = 68.0
_BAND_MM = 84.0
_STAMP_MM = 27.0
_NORTH_MM = 24.0
_LISTS_MM = 25.0
_PAD_MM = 2.0
_AIR_MM = 3.0
_ASSUMED = "* assumed, not measured"
_CONTINUED = "Continued on the notes sheet."
_POINTER_MM = PITCH_MM + 0.6
_TEXT_COLUMN_MM = 88.0


def _border(paper: Paper) -> Box:
    """Return the border line of a sheet."""
    return Box(_LEFT_MM, _BOTTOM_MM, paper.width_mm - _RIGHT_MM, paper.height_mm - _TOP_MM)


def _panels(paper: Paper) -> tuple[Box, tuple[Box, ...]]:
    """Return the part of a sheet for the drawing, and the columns of text beside or below it.

    The stamp, north and scales head the first column, the title block closes the last one.
    """
    border = _border(paper)
    if paper.lies:
        edge = border.right - _COLUMN_MM
        return border._replace(right=edge), (border._replace(left=edge),)
    edge = border.bottom + _BAND_MM
    third = border.width / 3
    band = border._replace(top=edge)
    columns = tuple(
        band._replace(left=border.left + i * third, right=border.left + (i + 1) * third)
        for i in range(3)
    )
    return border._replace(bottom=edge), columns


def drawing_room(paper: Paper) -> Box:
    """Return the free rectangle of a sheet, clear of border, title block and notes, in mm.

    Examples
    --------
    >>> from permitkit.drawing.scale import LETTER
    >>> room = drawing_room(LETTER.landscape)
    >>> round(room.width, 1), round(room.height, 1)
    (183.4, 185.9)
    """
    return _panels(paper)[0].grown(-_AIR_MM)


def _stamp(box: Box) -> tuple[Shape, ...]:
    """Return the space that the town fills in."""
    left, rule = box.left + _PAD_MM, box.top - 8.0
    return (
        hung(["Permit no."], (left, box.top - 1.6)),
        Line((box.left, rule), (box.right, rule), Role.NOTE),
        hung(["Town's stamp"], (left, rule - 1.4)),
        Line((box.left, box.bottom), (box.right, box.bottom), Role.FRAME),
    )


def _scales(
    scales: Sequence[Scale | ProfileScale], corner: tuple[float, float], width: float
) -> list[Shape]:
    """Return each scale in words with its bar, one below the other."""
    left, top = corner
    if not scales:
        return [hung(["Not to scale"], corner)]
    shapes: list[Shape] = []
    for scale in scales:
        lines = wrapped(_sentence(scale.text), width, LEAST_LETTERING_MM)
        flat = scale.horizontal if isinstance(scale, ProfileScale) else scale
        foot = top - len(lines) * PITCH_MM - 7.0
        shapes.extend((hung(lines, (left, top)), *scale_bar((left + 1.0, foot), flat, width)))
        top = foot - 2.5
    return shapes


def _sentence(text: str) -> str:
    """Return a text begun with a capital."""
    return text[:1].upper() + text[1:]


def _bearings(
    box: Box, scales: Sequence[Scale | ProfileScale], north_deg: float | None, looking: str
) -> tuple[list[Shape], float]:
    """Return north or the direction of view with the scales, and where they end below."""
    shapes: list[Shape] = []
    left, top, floor = box.left + _PAD_MM, box.top - 2.0, box.top
    if north_deg is not None:
        middle = (box.left + _NORTH_MM / 2, box.top - _NORTH_MM / 2)
        shapes.extend(north_arrow(middle, north_deg, 12.0))
        left, floor = box.left + _NORTH_MM + 1.0, box.top - _NORTH_MM
    width = box.right - left - _PAD_MM
    if looking:
        lines = wrapped(_sentence(looking), width, LEAST_LETTERING_MM)
        shapes.append(hung(lines, (left, top)))
        top -= len(lines) * PITCH_MM + 1.0
    shapes.extend(_scales(scales, (left, top), width))
    floor = min(floor, extent(shapes).bottom - 1.5)
    shapes.append(Line((box.left, floor), (box.right, floor), Role.FRAME))
    return shapes, floor


def framed(  # noqa: PLR0913 -- the options of one sheet, all by name
    paper: Paper,
    title: TitleBlock,
    shapes: Iterable[Shape],
    *,
    scales: Sequence[Scale | ProfileScale] = (),
    north_deg: float | None = None,
    looking: str = "",
    notes: Sequence[str] = (),
    key: Sequence[str] = (),
    words: Mapping[Role | Pattern, str] = LEGEND_WORDS,
) -> Sheet:
    """Return a sheet: a drawing with its border, title block, legend, key and notes.

    Parameters
    ----------
    paper
        The sheet; one that lies has a column on the right, one that stands a band below.
    title
        The title block.
    shapes
        The drawing, inside `drawing_room(paper)`.
    scales
        The scales used, each printed with its bar; none means not to scale.
    north_deg
        Where north lies, anticlockwise from the x axis: 90 is up the sheet. [degrees]
    looking
        The direction of view of a section, such as "looking north".
    notes
        Sentences. An asterisk anywhere on the drawing adds the line that explains it.
    key
        What the numbered bubbles say, first number first.
    words
        Phrases of the legend in place of the usual ones.

    Returns
    -------
    Sheet
        What found no room stands in `left_over` and belongs on a `continuation`.
    """
    drawing = tuple(shapes)
    _, columns = _panels(paper)
    stamp = columns[0]._replace(bottom=columns[0].top - _STAMP_MM)
    bearings, floor = _bearings(columns[0]._replace(top=stamp.bottom), scales, north_deg, looking)
    foot = columns[-1]._replace(top=floor - _LISTS_MM) if paper.lies else columns[-1]
    block = titled(foot, title, _scale_in_block(scales))
    free = [column.grown(-_PAD_MM) for column in columns]
    free[0] = free[0]._replace(top=floor - 1.0)
    free[-1] = free[-1]._replace(bottom=block.top + 1.0)
    items = _items(drawing, (*notes, *block.spilled), key, words, free[0].width)
    text, waiting = _flowed(items, free)
    frame = (*_rules(paper), *_stamp(stamp), *bearings, *text, *block.shapes)
    return Sheet(
        paper.width_mm,
        paper.height_mm,
        title.title,
        (*drawing, *frame),
        _scale_text(scales),
        title.sheet_text,
        tuple(item.text for item in waiting if item.text),
        tuple(item.entry for item in waiting if item.entry),
    )


def _scale_text(scales: Sequence[Scale | ProfileScale]) -> str:
    """Return the scale as the sheet is told to have it."""
    if len(scales) > 1:
        return "as shown"
    return scales[0].text if scales else "not to scale"


def _scale_in_block(scales: Sequence[Scale | ProfileScale]) -> str:
    """Return the scale in the title block: those of a profile stand beside its bar."""
    alone = len(scales) == 1 and not isinstance(scales[0], ProfileScale)
    return _scale_text(scales) if alone or not scales else "as shown"


def _rules(paper: Paper) -> tuple[Shape, ...]:
    """Return the border and the lines between its parts."""
    border = _border(paper)
    room, columns = _panels(paper)
    uprights = (
        Line((column.left, column.bottom), (column.left, column.top), Role.FRAME)
        for column in columns
        if column.left > border.left
    )
    level = Line((room.left, room.bottom), (room.right, room.bottom), Role.FRAME)
    rules = uprights if paper.lies else (level, *uprights)
    return Polygon(border.corners, Role.PROPOSED), *rules


def _items(
    drawing: Sequence[Shape],
    notes: Sequence[str],
    key: Sequence[str],
    words: Mapping[Role | Pattern, str],
    width: float,
) -> list[Item]:
    """Return what stands beside the drawing, what it cannot do without first."""
    starred = any("*" in label.text for label in labels_of(drawing))
    said = (_ASSUMED, *notes) if starred else tuple(notes)
    lists = (
        ("Key", _told(key, width, range(1, len(key) + 1))),
        ("Legend", [legend_item(entry, width) for entry in legend_entries(drawing, words)]),
        ("Notes", _told(said, width)),
    )
    return [item for name, items in lists if items for item in (heading(name), *items)]


def _told(texts: Sequence[str], width: float, numbers: Iterable[int] = ()) -> list[Item]:
    """Return notes one below the other, behind their numbers if they have any."""
    markers = [*map(str, numbers)] or [""] * len(texts)
    pairs = zip(markers, texts, strict=True)
    return [item for marker, text in pairs for item in paragraphs(text, width, marker)]


def _flowed(items: Sequence[Item], free: Sequence[Box]) -> tuple[list[Shape], list[Item]]:
    """Return the shapes of a text in its columns, and what found no room, after saying so.

    What is said stands at the foot of the last column that has a line to spare: a title block may
    fill its own column.
    """
    shapes, waiting = filled(items, free)
    roomy = [index for index, column in enumerate(free) if column.height >= _POINTER_MM]
    if not waiting or not roomy:
        return shapes, waiting
    last = roomy[-1]
    raised = free[last]._replace(bottom=free[last].bottom + _POINTER_MM)
    shapes, waiting = filled(items, [*free[:last], raised])
    shapes.append(hung([_CONTINUED], (raised.left, raised.bottom - 0.3)))
    return shapes, waiting


def continuation(
    sheets: Sequence[Sheet], paper: Paper, title: TitleBlock, under: Sequence[Shape] = ()
) -> tuple[Sheet, ...]:
    """Return the sheets that carry what found no room on others; none if all did.

    Parameters
    ----------
    sheets
        The sheets that are continued. What several of them say alike is said once.
    paper, title
        For the new sheets; the title's number is that of the first of them.
    under
        What stands at the top of the first of them already, as wide as it may be.
    """
    room = drawing_room(paper)
    columns = _text_columns(room)
    width = columns[0].width - _AIR_MM
    lists = _continued(sheets, width)
    waiting = [item for name, items in lists if items for item in (heading(name), *items)]
    new: list[Sheet] = []
    drawn = tuple(under)
    while waiting or drawn:
        before = len(waiting)
        top = extent(drawn).bottom - _AIR_MM if drawn else room.top
        shapes, waiting = filled(waiting, [column._replace(top=top) for column in columns])
        if len(waiting) == before and not drawn:
            raise ValueError("an entry of the legend is higher than a whole sheet")
        numbered = replace(title, number=title.number + len(new))
        bare = dict.fromkeys(LEGEND_WORDS, "")
        new.append(framed(paper, numbered, (*drawn, *shapes), words=bare))
        drawn = ()
    return tuple(new)


def _continued(sheets: Sequence[Sheet], width: float) -> list[tuple[str, list[Item]]]:
    """Return what waits on some sheets under headings: the legend, then what each set of them says.

    Sheets are named where there are several.
    """
    entries = dict.fromkeys(entry for sheet in sheets for entry in sheet.unexplained)
    lists = [("Legend, continued", [legend_item(Entry(*entry), width) for entry in entries])]
    saying: dict[str, list[str]] = {}
    for sheet in sheets:
        for text in sheet.left_over:
            saying.setdefault(text, []).append(sheet.number.partition(" ")[0])
    for numbers in dict.fromkeys(map(tuple, saying.values())):
        texts = [text for text, at in saying.items() if tuple(at) == numbers]
        name = f"Notes, continued from sheet {' and '.join(numbers)}"
        lists.append((name if len(sheets) > 1 else "Notes, continued", _told(texts, width)))
    return lists


def _text_columns(room: Box) -> tuple[Box, ...]:
    """Return the columns of a sheet of text."""
    count = max(1, int(room.width / _TEXT_COLUMN_MM))
    step = room.width / count
    return tuple(
        Box(room.left + i * step, room.bottom, room.left + (i + 1) * step, room.top)
        for i in range(count)
    )
