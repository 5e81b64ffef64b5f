"""The figures of a walk cut: what is taken out and laid, by surface, and how it is put back."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.sheet_parts.written import bulk_text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.drawing.walk_cut.crossing import Crossing

__all__ = ["restoration_rows", "take_off"]


def take_off(crossing: Crossing) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return heads and figures of what is taken out and laid: what the fees are counted on."""
    cut, write = crossing.cut, crossing.figures
    pairs = [
        ("Walk taken out", write.area(cut.walk_area_m2)),
        ("Walk counted for fees", write.area(cut.due_area_m2)),
        ("Saw cut", write.distance(cut.saw_length_m)),
        ("New concrete", bulk_text(write, cut.concrete_m3)),
        ("New base", bulk_text(write, cut.base_m3)),
        ("Trench in the right-of-way", write.distance(cut.trench_m)),
        ("Trench, area", write.area(cut.trench_area_m2)),
    ]
    if not cut.trench_area_m2:
        pairs = [(name, figure) for name, figure in pairs if name != "Trench, area"]
    if not crossing.opened:
        pairs = [(name, figure) for name, figure in pairs if name.startswith("Trench")]
    given = crossing.job.cut
    pairs.extend([("Curb taken out", given.curb_removed.shown())] if given.curb_removed else [])
    pairs.extend([("Pavement cut", given.pavement_cut.shown())] if given.pavement_cut else [])
    heads, figures = zip(*pairs, strict=True)
    return heads, figures


def restoration_rows(crossing: Crossing) -> list[tuple[str, str]]:
    """Return how everything is put back, as names and statements."""
    return [row for row in _rows(crossing) if row[1]]


def _rows(crossing: Crossing) -> Iterator[tuple[str, str]]:
    """Yield names and statements; empty where the job does not say."""
    restoration = crossing.job.restoration
    yield from _walk(crossing)
    yield from _slopes(crossing)
    yield "Joints", _joints(crossing)
    yield "Curb grout", restoration.grout or ""
    yield "Backfill", _backfill(crossing)
    yield "Topsoil", _listed(restoration.soil, restoration.seed)
    yield "Open again", _open(crossing)


def _listed(*parts: str | None) -> str:
    """Return what is said of several things, one after the other."""
    return "; ".join(part for part in parts if part)


def _walk(crossing: Crossing) -> Iterator[tuple[str, str]]:
    """Yield the concrete: strength, finish, thickness, base, the pipe in it."""
    restoration, cut = crossing.job.restoration, crossing.job.cut
    if crossing.opened:
        age = f" at {restoration.strength_days} days" if restoration.strength_days else ""
        strength = f"{restoration.strength.shown()}{age}" if restoration.strength else ""
        yield "Concrete", _listed(strength, restoration.finish)
        yield (
            "Pattern",
            _listed(
                restoration.score_pattern, "matches what was there" if restoration.matches else ""
            ),
        )
        base = f"on {crossing.figures.height(crossing.base_m)} of " if crossing.base_m else ""
        material = (restoration.base_material or "base") if base else ""
        yield "Thickness", f"{crossing.figures.height(crossing.slab_m)} {base}{material}".strip()
    yield "Pipe", f"walk {cut.crossing}, slab {cut.slab_at_pipe} at the pipe; {_in_slab(crossing)}"


def _in_slab(crossing: Crossing) -> str:
    """Return how far the pipe stands into the slab at both edges, and what lies over it."""
    write = crossing.figures.height
    if max(crossing.front.into_slab_m, crossing.back.into_slab_m) <= 0.0:
        least = min(-crossing.front.into_slab_m, -crossing.back.into_slab_m)
        return f"not in it, {write(least)} or more below"
    each = (
        f"{edge.edge} {write(max(edge.into_slab_m, 0.0))} in, "
        f"{crossing.over_words(edge.concrete_over_m)}"
        for edge in (crossing.front, crossing.back)
    )
    return f"{'; '.join(each)}; bond break to the town's detail"


def _slopes(crossing: Crossing) -> Iterator[tuple[str, str]]:
    """Yield the slopes across and along the walk, as they are and as they will be."""
    walk, restoration = crossing.job.walk, crossing.job.restoration
    sides = (
        ("left", walk.cross_slope_left),
        ("here", walk.cross_slope),
        ("right", walk.cross_slope_right),
    )
    now = ", ".join(f"{side} {slope.shown()}" for side, slope in sides if slope is not None)
    new = restoration.cross_slope.shown() if restoration.cross_slope else ""
    yield "Fall across", f"now {now}; new {new}" if new else f"now {now}"
    runs = (("now", walk.running_slope), ("new", restoration.running_slope))
    yield "Fall along", "; ".join(f"{when} {slope.shown()}" for when, slope in runs if slope)


def _joints(crossing: Crossing) -> str:
    """Return the joints between new and old walk, and how the edges meet."""
    if not crossing.opened:
        return ""
    restoration = crossing.job.restoration
    lip, bevel = restoration.lip, ", beveled" if restoration.lip_bevelled else ""
    edges = "" if lip is None else f"step of {lip.shown()}{bevel}" if lip.si else "edges flush"
    return _listed(restoration.joint, "dowels" if restoration.dowels else "no dowels", edges)


def _backfill(crossing: Crossing) -> str:
    """Return the backfill, its lifts and density."""
    restoration = crossing.job.restoration
    lift = f"lifts of {restoration.lift.shown()}" if restoration.lift else ""
    density = f"{restoration.density.shown()} density" if restoration.density else ""
    return _listed(restoration.backfill, ", ".join(part for part in (lift, density) if part))


def _open(crossing: Crossing) -> str:
    """Return how soon people and wheels come back."""
    restoration = crossing.job.restoration
    if not crossing.opened:
        return ""
    feet, wheels = restoration.hours_to_feet, restoration.days_to_wheels
    on_foot = f"to feet after {feet} hours" if feet is not None else ""
    return _listed(on_foot, f"to wheels after {wheels} days" if wheels is not None else "")
