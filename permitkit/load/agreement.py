"""What the parts of a job must agree on before anything can be computed."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pydantic import ValidationError

from permitkit.errors import Fault
from permitkit.model.drain import OUTLET, VERGE, Inflow, Node, Outlet, Reach, VergePool
from permitkit.model.papers import Answer
from permitkit.model.reading import nearest, read_answer
from permitkit.model.reading.written import quoted
from permitkit.model.site import Curb, Feature, Gutter, House, Street, Walk
from permitkit.model.work import Counts, Cut, Dates, Traffic
from permitkit.units import Measure

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from permitkit.load.faults import Model

__all__ = ["disagreements"]

_HEIGHTS = ("hole_bottom", "invert", "centre_below_top")
_WITH_OUTLET_NODE = ("emitter", "dry well", "storm lateral")
_WITHOUT_OUTLET_NODE = ("core", "notch")
_TIME = re.compile(r"(?:[01]\d|2[0-3]):[0-5]\d")
_TWO = 2
_MORE_THAN_NOTHING = "more than nothing"


def disagreements(table: Mapping[str, Any], where: str) -> Iterator[Fault]:
    """Yield what keeps a job from being computed though each of its fields may be sound alone.

    Parameters
    ----------
    table
        The job file as its parser gave it, with levels in place of rod readings. A part that is
        no sound table is passed over: its own faults are told elsewhere.
    where
        The file, as faults name it.
    """
    file = _File(table, where)
    for agree in (
        _run,
        _verge,
        _reaches,
        _inflows,
        _outlet,
        _curb,
        _gutter,
        _walk,
        _sides,
        _dates,
        _conditions,
        _counts,
        _hours,
        _answers,
    ):
        yield from agree(file)


@dataclass(frozen=True, slots=True)
class _File:
    """The parts of a job file, each read alone, and the places in it."""

    tables: Mapping[str, Any]
    where: str

    def at(self, place: str, found: str, expected: str, fix: str = "") -> Fault:
        """Return a fault at a place of the file."""
        return Fault(f"{self.where}: {place}", found, expected, fix)

    def raw(self, name: str) -> Any:  # noqa: ANN401 - the file may hold anything here
        """Return what stands under a dotted name, or nothing."""
        value: Any = self.tables
        for step in name.split("."):
            value = value.get(step) if isinstance(value, dict) else None
        return value

    def part(self, model: type[Model], name: str) -> Model | None:
        """Return one table as its model, if it is sound."""
        return _read(model, self.raw(name))

    def rows(self, model: type[Model], name: str) -> Iterator[tuple[str, Model]]:
        """Yield the sound tables of a list, each with its place."""
        for n, value in enumerate(_listed(self.raw(name)), 1):
            row = _read(model, value)
            if row is not None:
                yield f"{name}[{n}]", row

    def node_names(self) -> list[object]:
        """Return the names of the nodes, of the unsound ones too."""
        rows = _listed(self.raw("drain.node"))
        return [row.get("name") for row in rows if isinstance(row, dict)]


def _listed(value: object) -> list[object]:
    if isinstance(value, list):
        return value
    return [] if value is None else [value]


def _read(model: type[Model], value: object) -> Model | None:
    try:
        return model.model_validate(value)
    except ValidationError:
        return None


def _run(file: _File) -> Iterator[Fault]:
    """Yield a run without nodes or reaches, nodes amiss or of one name, an outlet node amiss."""
    names = file.node_names()
    piped = isinstance(file.raw("drain"), dict) and file.raw("drain.verge") is None
    for part in ("node", "reach"):
        if piped and not file.raw(f"drain.{part}"):
            yield file.at(f"drain.{part}", "nothing", f"at least one [[drain.{part}]]")
    for n, name in enumerate(names, 1):
        if name is not None and name in names[: n - 1]:
            yield file.at(f"drain.node[{n}].name", quoted(name), "a name no other node has")
    for place, node in file.rows(Node, "drain.node"):
        if node.ground < node.invert:
            expected = f"ground no lower than the invert, {node.invert.shown()}"
            yield file.at(f"{place}.ground", quoted(node.ground.text), expected)
    kind = file.raw("outlet.kind")
    if kind in _WITH_OUTLET_NODE and OUTLET not in names and names:
        fix = f'add [[drain.node]] with name = "{OUTLET}", its ground and invert'
        yield file.at("drain.node", f"no node {OUTLET!r}", f"the level where the {kind} lies", fix)
    if kind in _WITHOUT_OUTLET_NODE and OUTLET in names:
        place = f"drain.node[{names.index(OUTLET) + 1}]"
        expected = f"the nodes above the {kind}, whose height [outlet] states"
        yield file.at(place, f"a node {OUTLET!r}", expected, "take this node out")


def _verge(file: _File) -> Iterator[Fault]:
    """Yield a verge let out by notches that has a pipe as well, or that is no hollow."""
    verge, kind = file.part(VergePool, "drain.verge"), file.raw("outlet.kind")
    if file.raw("drain.verge") is None:
        return
    for part in ("node", "reach"):
        if file.raw(f"drain.{part}"):
            expected = "no pipe beside a verge that is let out by notches"
            yield file.at(f"drain.{part}", f"a {part}", expected, "take the one or the other out")
    if kind is not None and kind != "notch":
        yield file.at("outlet.kind", repr(kind), "notch, where the drain has no pipe")
    if verge is None:
        return
    yield from _positive(file, "drain.verge.length", verge.length)
    outlet = file.part(Outlet, "outlet")
    if outlet is not None and outlet.count > 1 and outlet.spacing is None:
        expected = "how far apart the notches stand"
        yield file.at("outlet.spacing", "nothing", expected, "add spacing")
    walk = file.part(Walk, "walk")
    spill = verge.spill or (walk.level_curb_side if walk else None)
    if spill is not None and spill <= verge.low:
        place = "drain.verge.spill" if verge.spill else "walk.level_curb_side"
        yield file.at(place, quoted(spill.text), f"a level over the lowest, {verge.low.shown()}")


def _reaches(file: _File) -> Iterator[Fault]:
    """Yield reaches that join nothing, that lead nowhere, or that part."""
    names = [name for name in file.node_names() if isinstance(name, str)]
    begun: set[str] = set()
    for place, reach in file.rows(Reach, "drain.reach"):
        yield from _known(file, f"{place}.upper", reach.upper, names)
        yield from _known(file, f"{place}.lower", reach.lower, [*names, OUTLET])
        if reach.upper == reach.lower:
            yield file.at(place, f"from {reach.upper} to itself", "two nodes")
        elif reach.upper in begun:
            expected = "one reach away from each node"
            yield file.at(f"{place}.upper", f"{reach.upper!r} once more", expected)
        begun.add(reach.upper)
        yield from _positive(file, f"{place}.length", reach.length)


def _known(file: _File, place: str, name: str, names: Iterable[str]) -> Iterator[Fault]:
    """Yield a name that is no node's."""
    known = list(dict.fromkeys(names))
    if name not in known:
        yield file.at(place, repr(name), f"a node: {', '.join(known)}", nearest(name, known))


def _positive(file: _File, place: str, value: Measure | None) -> Iterator[Fault]:
    """Yield a length that is nothing where something must be divided by it."""
    if value is not None and not value.si:
        yield file.at(place, quoted(value.text), _MORE_THAN_NOTHING)


def _inflows(file: _File) -> Iterator[Fault]:
    """Yield inflows at no node, inflows of no known size, and what is stated twice or by half."""
    names = [name for name in file.node_names() if isinstance(name, str)]
    if file.raw("drain.verge") is not None:
        names = [VERGE]
    for place, inflow in file.rows(Inflow, "drain.inflow"):
        yield from _known(file, f"{place}.node", inflow.node, names)
        if inflow.runoff is not None and inflow.surface is not None:
            found = f"{inflow.runoff.text} beside {inflow.surface}"
            yield file.at(f"{place}.runoff", found, "a coefficient or a surface, not both")
        if inflow.runoff is not None and inflow.runoff_source is None:
            expected = "the book or the town that the coefficient is from"
            yield file.at(f"{place}.runoff_source", "nothing", expected, "add runoff_source")
        if inflow.leader_depth is not None and inflow.leader is None:
            yield file.at(f"{place}.leader", "nothing", "the width of the leader", "add leader")
        yield from _positive(file, f"{place}.leader", inflow.leader)
        yield from _positive(file, f"{place}.leader_depth", inflow.leader_depth)
        if inflow.kind == "sump" and inflow.pump is None:
            fix = 'add pump = { rate = "…", lift = "…" }, timed in the pit'
            yield file.at(
                f"{place}.pump", "nothing", "the pump's rate, which is never assumed", fix
            )
        elif inflow.area is None and inflow.wall_area is None and inflow.pump is None:
            yield file.at(f"{place}.area", "nothing", "the area that drains here, or a pump")


def _outlet(file: _File) -> Iterator[Fault]:
    """Yield what the kind of outlet needs and has not, and heights stated twice."""
    outlet = file.part(Outlet, "outlet")
    if outlet is None:
        return
    needed = {
        "core": ("bit",),
        "notch": ("width", "floor_toe", "floor_slope"),
        "emitter": ("emitter",),
    }
    for name in needed.get(outlet.kind, ()):
        if getattr(outlet, name) is None:
            yield file.at(
                f"outlet.{name}", "nothing", f"what every {outlet.kind} has", f"add {name}"
            )
    stated = [name for name in _HEIGHTS if getattr(outlet, name) is not None]
    if len(stated) > 1 or (outlet.kind == "core" and not stated):
        found = " and ".join(stated) or "no height"
        yield file.at("outlet", found, f"exactly one of {', '.join(_HEIGHTS)}")
    yield from _positive(file, "outlet.bit", outlet.bit)
    yield from _positive(file, "outlet.width", outlet.width)


def _curb(file: _File) -> Iterator[Fault]:
    """Yield a curb without its roll or its reveal, and an outlet larger than the curb."""
    curb, outlet = file.part(Curb, "curb"), file.part(Outlet, "outlet")
    if curb is None or curb.shape == "none":
        return
    if not curb.reveal:
        yield file.at("curb.reveal", "an empty list", "one to three readings")
        return
    if curb.shape == "rolled" and curb.roll_width is None:
        expected = "the width of the roll, from flow line to back"
        yield file.at("curb.roll_width", "nothing", expected, "add roll_width")
    reveal = min(curb.reveal)
    yield from _positive(file, "curb.reveal", reveal)
    yield from _positive(file, "curb.top_width", curb.top_width)
    for name, what in (("bit", "hole"), ("floor_toe", "notch floor")):
        size = getattr(outlet, name, None)
        if size is not None and size > reveal:
            expected = f"a {what} within the curb's reveal of {reveal.shown()}"
            yield file.at(f"outlet.{name}", quoted(size.text), expected, "measure the reveal again")


def _gutter(file: _File) -> Iterator[Fault]:
    """Yield a gutter whose flow is known and whose fall is not."""
    gutter, street = file.part(Gutter, "gutter"), file.part(Street, "street")
    if gutter is None or gutter.flow is None or street is None:
        return
    if street.grade is None or not street.grade.si:
        found = quoted(street.grade.text) if street.grade else "nothing"
        expected = "the fall along the gutter, where its flow is given"
        yield file.at("street.grade", found, expected, 'level it over 50 ft: grade = "0.6 %"')


def _walk(file: _File) -> Iterator[Fault]:
    """Yield panels of no length, and a cut that begins beyond its own width."""
    walk, cut, street = (
        file.part(Walk, "walk"),
        file.part(Cut, "cut"),
        file.part(Street, "street"),
    )
    if street is not None:
        yield from _positive(file, "street.speed", street.speed)
        if len(street.between) == 1:
            found = repr(street.between[0])
            yield file.at("street.between", found, "the cross streets at both ends of the block")
    if walk is not None:
        yield from _positive(file, "walk.panel_length", walk.panel_length)
    if cut is None or cut.width is None or cut.left_of_run is None:
        return
    if cut.left_of_run > cut.width:
        expected = f"no more than the width of the cut, {cut.width.shown()}"
        yield file.at("cut.left_of_run", quoted(cut.left_of_run.text), expected)


def _sides(file: _File) -> Iterator[Fault]:
    """Yield things along the curb that end before they begin."""
    for place, feature in file.rows(Feature, "feature"):
        if feature.far is not None and feature.far < feature.near:
            expected = f"a station no less than near, {feature.near.shown()}"
            yield file.at(f"{place}.far", quoted(feature.far.text), expected)
    house = file.part(House, "site.house")
    if house is not None and house.right <= house.left:
        expected = f"a station beyond left, {house.left.shown()}"
        yield file.at("site.house.right", quoted(house.right.text), expected)


def _dates(file: _File) -> Iterator[Fault]:
    """Yield work that ends before it begins."""
    dates = file.part(Dates, "dates")
    if dates is not None and dates.finish < dates.start:
        expected = f"a day no earlier than the start, {dates.start}"
        yield file.at("dates.finish", str(dates.finish), expected)


def _conditions(file: _File) -> Iterator[Fault]:
    """Yield what a town's conditions may ask for and the job tells against itself."""
    cut, dates = file.part(Cut, "cut"), file.part(Dates, "dates")
    crosses = cut is not None and cut.crossing == "none"
    if cut is not None and crosses and cut.trench_runs == "across the walk":
        expected = "a way the walk is crossed, or a trench along it"
        yield file.at("cut.trench_runs", repr(cut.trench_runs), expected, "set crossing")
    if dates is None or dates.emergency is None:
        return
    if dates.emergency > dates.start:
        expected = f"a day no later than the start, {dates.start}"
        yield file.at("dates.emergency", str(dates.emergency), expected)


def _counts(file: _File) -> Iterator[Fault]:
    """Yield a street that is counted though nothing of it is cut."""
    cut, counts = file.part(Cut, "cut"), file.part(Counts, "counts")
    if cut is None or counts is None or cut.pavement_cut:
        return
    for name in ("length_of_pavement", "area_of_street", "street_crossings"):
        counted = getattr(counts, name)
        if counted:
            expected = "nothing, since no pavement is cut"
            found = repr(counted.shown()) if isinstance(counted, Measure) else str(counted)
            yield file.at(f"counts.{name}", found, expected, "add pavement_cut to the cut")


def _hours(file: _File) -> Iterator[Fault]:
    """Yield hours that are no times of day, or that end before they begin."""
    for name in ("filed_at", "locate.called_at"):
        hour = file.raw(name)
        if isinstance(hour, str) and not _TIME.fullmatch(hour):
            yield file.at(name, repr(hour), 'a time of day, such as "15:40"')
    traffic = file.part(Traffic, "traffic")
    if traffic is None:
        return
    begin, end = traffic.hours_from, traffic.hours_to
    for name, hour in (("hours_from", begin), ("hours_to", end)):
        if hour is not None and not _TIME.fullmatch(hour):
            yield file.at(f"traffic.{name}", repr(hour), 'a time of day, such as "08:00"')
            return
    if begin is not None and end is not None and end <= begin:
        yield file.at("traffic.hours_to", repr(end), f"a time after {begin}")
        return
    if traffic.pause is not None:
        hours = traffic.pause.split("-")
        timed = len(hours) == _TWO and all(_TIME.fullmatch(hour) for hour in hours)
        if not timed or not (begin and end) or not begin < hours[0] < hours[1] < end:
            expected = 'hours within those of work, such as "11:00-13:00"'
            yield file.at("traffic.pause", repr(traffic.pause), expected)


def _answers(file: _File) -> Iterator[Fault]:
    """Yield answers to no question, or with no answer in them."""
    for place, answer in file.rows(Answer, "answer"):
        faults: list[Fault] = []
        read_answer(answer, f"{file.where}: {place}", faults)
        yield from faults
