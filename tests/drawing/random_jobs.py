"""Valid jobs of every kind, made by chance from a seed: the same seed gives the same job."""

from __future__ import annotations

from datetime import date
from functools import cache
from typing import TYPE_CHECKING, Any

from random_maker import Maker
from random_work import cut, inflows, restoration, traffic

from permitkit.load.agreement import disagreements
from permitkit.load.assumptions import with_assumptions
from permitkit.load.rule_sheet import load_layers
from permitkit.model.job import Job
from permitkit.study.study import studied

if TYPE_CHECKING:
    from permitkit.model.rules import Sheet
    from permitkit.study.results import Study

__all__ = ["random_job", "random_study"]

PIPES = (("3-sch40", 3.5), ("4-sdr35", 4.215), ("2-sch40", 2.375))
BITS = (3.0, 4.0, 4.5, 5.0)


def random_job(seed: int) -> Job:
    """Return a valid job."""
    make = Maker(seed)
    frontage = make.chance.choice((5.0, 30.0, 900.0, *(make.between(35, 140) for _ in range(9))))
    table = _site(make, frontage)
    curb = _curb(make)
    verge = 0.0 if make.likely(0.2) else make.between(2, 12)
    walk = make.between(4, 8)
    thick = curb["_thick"]
    front = thick + verge
    row = front + walk + make.chance.choice((0.0, 1.0, make.between(0, 4)))
    table["site"]["row_line_offset"] = make.length(row)
    house = row + make.between(10, 60)
    if make.likely(0.85) and frontage > 20:
        table["site"]["house"] = {
            "front_offset": make.length(house),
            "left": make.length(frontage * 0.2),
            "right": make.length(frontage * 0.75),
        }
        if make.likely(0.7):
            table["site"]["house"]["depth"] = make.length(make.between(20, 50))
    table["verge"] = {"width": make.length(verge)}
    table["walk"] = _walk(make, walk, front)
    station = make.between(0.5, max(frontage - 0.5, 1.0))
    if make.likely(0.05):
        station = frontage + make.between(1, 10)
    kind = _kind(make, curb)
    if kind == "hollow":
        table |= _hollow(make, curb, station, (verge, front))
    else:
        table["outlet"] = _outlet(make, kind, station, row)
        table["drain"] = _drain(make, table["outlet"], station, (row, house))
        table["cut"] = cut(make, row, walk)
    table["feature"] = _features(make, frontage)
    table["utility"] = _utilities(make, row)
    table["existing"] = _old_holes(make, frontage, kind)
    table["restoration"] = restoration(make)
    table["traffic"] = traffic(make)
    table["curb"] = {key: value for key, value in curb.items() if not key.startswith("_")}
    faults = list(disagreements(table, f"seed {seed}"))
    assert not faults, faults
    return with_assumptions(Job.model_validate(table))


def _site(make: Maker, frontage: float) -> dict[str, Any]:
    """Return site, street, gutter and what else does not depend on the outlet."""
    table: dict[str, Any] = {
        "schema": 1,
        "town": "millrace",
        "filing": date(2026, 4, 6),
        "units": "metric" if make.metric else "us",
        "site": {
            "address": f"{make.chance.randint(1, 999)} {make.name()}"[:200],
            "owner": make.name(),
            "frontage": make.length(frontage),
            "row_line_basis": make.chance.choice(("survey", "plat", "scaled", "assumed")),
            "north": make.chance.choice(("up", "down", "left", "right")),
        },
        "street": {
            "name": make.name(),
            "speed": "25 mph",
            "width": make.length(make.between(20, 48)),
            "lanes": make.chance.choice((1, 2, 2, 2, 4, 6)),
            "parking": make.chance.choice(("both sides", "this side", "far side", "none")),
        },
        "level": {"benchmark": "curb top", "benchmark_level": make.level(100)},
        "gutter": _gutter(make),
        "dates": {"start": date(2026, 5, 4), "finish": date(2026, 5, 8)},
        "locate": {"ticket": "26-1"} if make.likely(0.5) else {},
    }
    if make.likely(0.7):
        table["site"]["cross_street"] = make.name()
        table["site"]["cross_street_side"] = make.chance.choice(("left", "right"))
    if make.likely(0.6):
        table["site"]["cross_street_distance"] = make.length(make.between(50, 500))
    if make.likely(0.7):
        table["street"]["gutter_flows"] = make.chance.choice(("left", "right"))
        table["street"]["grade"] = f"{make.between(0.2, 4):.1f} %"
    return table


def _gutter(make: Maker) -> dict[str, Any]:
    """Return the gutter."""
    gutter: dict[str, Any] = {
        "kind": make.chance.choice(("catch", "catch", "spill", "none")),
        "flow_line": make.level(99.5),
    }
    if gutter["kind"] != "none" and make.likely(0.6):
        gutter["pan_width"] = make.size(make.between(10, 26))
        gutter["pan_slope"] = "1/2 in/ft"
    return gutter


def _curb(make: Maker) -> dict[str, Any]:
    """Return the curb; `_thick` in feet and `_reveal` in inches are for the rest of the job."""
    shape = make.chance.choice(
        ("vertical",) * 4
        + ("granite", "granite", "sloping", "sloping")
        + ("rolled", "rolled", "half-round", "half-round", "none")
    )
    reveal = round(
        make.between(5, 8) if shape not in {"rolled", "half-round"} else make.between(3, 5), 1
    )
    wide = round(make.between(5, 8), 1)
    curb: dict[str, Any] = {"shape": shape, "top_width": make.size(wide), "_reveal": reveal}
    curb["reveal"] = [
        make.size(reveal + extra) for extra in make.chance.choice(((0,), (0, 0.25, 0.5)))
    ]
    curb["_thick"] = wide / 12
    if shape in {"rolled", "half-round"}:
        roll = round(make.between(2.4, 3.5) * reveal, 1)
        curb |= {"roll_width": make.size(roll), "_thick": roll / 12}
    if shape == "sloping":
        curb["batter"] = "1:2"
    if make.likely(0.3):
        curb["radius"] = make.size(1)
    if make.likely(0.3):
        curb["base_depth"] = make.size(reveal + make.chance.choice((6, 12)))
    for side in ("joint_left", "joint_right"):
        if make.likely(0.8):
            curb[side] = make.size(make.between(6, 130))
    return curb


def _walk(make: Maker, width: float, front: float) -> dict[str, Any]:
    """Return the walk."""
    panel = make.between(4, 6)
    table: dict[str, Any] = {
        "width": make.length(width),
        "panel_length": make.length(panel),
        "joint_left_of_run": make.length(make.between(0.0, 0.9) * panel),
        "surface": make.chance.choice(("concrete",) * 5 + ("asphalt", "brick", "stone")),
        "use": make.chance.choice(("plain", "plain", "plain", "driveway", "ramp")),
        "cross_slope": "2 %",
        "level_curb_side": make.level(100 + 0.02 * front),
        "level_house_side": make.level(100 + 0.02 * (front + width)),
    }
    if make.likely(0.5):
        table |= {"cross_slope_left": "1.8 %", "cross_slope_right": "2.1 %", "running_slope": "1 %"}
    return table | ({"thickness": make.size(make.between(3, 7))} if make.likely(0.6) else {})


def _kind(make: Maker, curb: dict[str, Any]) -> str:
    """Return a way to let the water go that this curb may have; `hollow` is one without a pipe."""
    lawn = ("emitter", "emitter", "dry well", "storm lateral")
    if curb["shape"] == "none":
        return make.chance.choice(lawn)
    if make.likely(0.2):
        return make.chance.choice(lawn)
    if curb["shape"] in {"rolled", "half-round"}:
        return make.chance.choice(("notch", "notch", "notch", "culvert under walk", "hollow"))
    ways = ("core",) * 6 + ("existing hole", "notch", "culvert under walk", "hollow")
    return make.chance.choice(ways)


def _outlet(make: Maker, kind: str, station: float, row: float) -> dict[str, Any]:
    """Return the outlet; `_back` in feet is how far behind the curb one in the lawn lies."""
    outlet: dict[str, Any] = {"kind": kind, "station": make.length(station)}
    if kind in {"emitter", "dry well", "storm lateral"}:
        back = -make.between(2, 6) if kind == "storm lateral" else make.between(6, 10)
        own = {"emitter": _emitter(make)} if kind == "emitter" else {}
        return outlet | own | {"_back": max(row + back, 1.0)}
    if make.likely(0.5):
        outlet |= {"tie_line": make.length(station), "tie_line_from": "left side line extended"}
    if kind in {"notch", "culvert under walk"}:
        return outlet | {"pipe": "tube-4x2"} | _notch(make)
    pipe, outside = make.chance.choice(PIPES)
    bit = next(bit for bit in BITS if bit >= outside + 0.4)
    outlet |= {"pipe": pipe, "bit": make.size(bit)}
    outlet["hole_bottom"] = make.size(make.chance.choice((0.125, 0.375, 0.5)))
    outlet["drill_from"] = make.chance.choice(("behind", "street"))
    if kind == "core" and make.likely(0.2):
        outlet |= {"count": 2, "spacing": make.size(24)}
    return outlet


def _emitter(make: Maker) -> dict[str, Any]:
    """Return an emitter, with a pit or without."""
    away = make.length(make.between(6, 15))
    rim: dict[str, Any] = {
        "rim": make.level(100.8),
        "lid_loss": make.chance.choice(("open", "pop-up lid", "grate")),
        "to_row": away,
        "to_side_line": away,
        "to_walk": away,
        "to_house": away,
    }
    if make.likely(0.7):
        rim |= {"pit_width": make.size(24), "pit_length": make.size(24), "pit_depth": make.size(18)}
        rim |= {"weep": make.size(0.375), "pit_voids": "40 %"}
    return rim


def _notch(make: Maker) -> dict[str, Any]:
    """Return the sizes of a notch."""
    sizes: dict[str, Any] = {
        "width": make.size(make.between(3, 6)),
        "floor_toe": make.size(0.5),
        "floor_slope": "2 %",
    }
    sizes |= {"taper": make.size(0.5)} if make.likely(0.4) else {}
    return sizes | ({"plate": "steel plate"} if make.likely(0.3) else {})


def _hollow(
    make: Maker, curb: dict[str, Any], station: float, edges: tuple[float, float]
) -> dict[str, Any]:
    """Return water that gathers in the verge and leaves by one to four notches, with no pipe."""
    verge, front = edges
    outlet: dict[str, Any] = {"kind": "notch", "station": make.length(station)} | _notch(make)
    many = make.chance.randint(1, 4)
    if many > 1:
        outlet |= {"count": many, "spacing": make.length(make.between(2, 12))}
    low = 100 - curb["_reveal"] / 12 * 0.6
    grounds = ((front - verge, 100.0, "verge"), (front - verge / 2, low, "verge"))
    return {
        "outlet": outlet,
        "drain": {
            "verge": {"length": make.length(make.between(20, 80)), "low": make.level(low)},
            "inflow": inflows(make, ["verge"]),
        },
        "ground": [
            {"at": make.length(at), "level": make.level(level), "surface": surface}
            for at, level, surface in (*grounds, (front, 100.1, "walk"))
        ]
        if verge
        else [],
        "cut": {"crossing": "none"},
    }


def _drain(
    make: Maker, outlet: dict[str, Any], station: float, depths: tuple[float, float]
) -> dict[str, Any]:
    """Return nodes, reaches and inflows, one behind the other with a branch now and then."""
    row, house = depths
    begin = outlet.pop("_back", 0.0)
    away, offset, x = 0.0, begin, station
    pipe = outlet.get("pipe", "4-sdr35")
    nodes: list[dict[str, Any]] = []
    reaches: list[dict[str, Any]] = []
    lower = "outlet"
    if begin:
        end = {"name": "outlet", "ground": make.level(100.7), "invert": make.level(99.9)}
        nodes.append(end | {"station": make.length(x), "offset": make.length(begin)})
    placed = make.likely(0.7)
    for index in range(make.chance.choice((1, 2, 3, 4, make.chance.randint(5, 9)))):
        step = (
            make.between(6, 40)
            if index
            else max(row - begin, 8.0) + make.between(1, max(house - row, 2))
        )
        away += step
        offset, x = offset + step * 0.9, max(x + make.between(-6, 6), 0.0)
        name = f"N{index + 1}"
        node = _node(make, name, away)
        if placed:
            node |= {"station": make.length(x), "offset": make.length(offset)}
        nodes.append(node)
        reaches.append(
            {"upper": name, "lower": lower, "length": make.length(step), "pipe": pipe}
            | ({"barrels": 2} if outlet.get("count") == 2 else {})
        )
        if make.likely(0.85):
            lower = name
    return {"node": nodes, "reach": reaches, "inflow": inflows(make, [r["upper"] for r in reaches])}


def _node(make: Maker, name: str, away: float) -> dict[str, Any]:
    """Return a node so far along the run, sealed or open."""
    node: dict[str, Any] = {
        "name": name,
        "ground": make.level(100.9 + 0.02 * away),
        "invert": make.level(99.9 + 0.012 * away),
        "cleanout": make.likely(0.4),
    }
    if make.likely(0.2):
        return node | {"sealed": True}
    node["opening"] = make.level(102 + 0.02 * away)
    return node | {"opening_kind": make.chance.choice(("leaf screen", "patio grate", "air gap"))}


def _features(make: Maker, frontage: float) -> list[dict[str, Any]]:
    """Return lasting things along the street."""
    rows: list[dict[str, Any]] = []
    kinds = (
        "drive",
        "ramp",
        "inlet",
        "hydrant",
        "pole",
        "tree",
        "crosswalk",
        "bus stop",
        "cabinet",
        "meter box",
    )
    for _ in range(make.chance.randint(0, 7)):
        near = make.between(0, frontage + 20)
        row: dict[str, Any] = {"kind": make.chance.choice(kinds), "near": make.length(near)}
        if row["kind"] in {"drive", "ramp", "crosswalk", "inlet"}:
            row["far"] = make.length(near + make.between(9, 20))
        if row["kind"] in {"drive", "ramp"}:
            row["flare"] = make.length(make.between(1, 4))
        if row["kind"] == "tree":
            row |= {
                "trunk": make.size(make.between(3, 30)),
                "drip_line": make.length(make.between(3, 20)),
            }
            row |= {"species": "hornbeam"} if make.likely(0.5) else {}
        if row["kind"] in {"hydrant", "pole", "tree"}:
            row |= {
                "offset": make.length(make.between(1.5, 4)),
                "name": f"{row['kind']} {make.chance.randint(1, 99)}",
            }
        rows.append(row)
    return rows


def _utilities(make: Maker, row: float) -> list[dict[str, Any]]:
    """Return buried lines."""
    kinds = ("electric", "gas", "communication", "water", "reclaimed water", "sewer")
    return [
        {
            "kind": make.chance.choice(kinds),
            "at": make.length(make.between(1, row + 6)),
            "marked": make.chance.choice(("yes", "no", "unknown")),
        }
        | ({"depth": make.size(make.between(12, 60))} if make.likely(0.6) else {})
        | ({"along": "run"} if make.likely(0.1) else {})
        for _ in range(make.chance.randint(0, 6))
    ]


def _old_holes(make: Maker, frontage: float, kind: str) -> list[dict[str, Any]]:
    """Return holes there already."""
    return [
        {
            "station": make.length(make.between(0, frontage)),
            "size": make.size(3),
            "plan": "plug" if kind == "emitter" else make.chance.choice(("keep", "plug")),
        }
        for _ in range(make.chance.choice((0, 0, 1, 2)))
    ]


@cache
def _sheets() -> tuple[Sheet, ...]:
    return load_layers("millrace")


def random_study(job: Job) -> Study:
    """Return the study of a job under one demo town's rules."""
    return studied(job, _sheets())[0]
