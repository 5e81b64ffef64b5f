"""What is done at a job made by chance: water let in, walk cut and put back, people led round."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from random_maker import Maker

__all__ = ["cut", "inflows", "restoration", "traffic"]

LANES = ("none", "parking lane", "parking lane", "travel lane", "shoulder")
WAYS = (
    "in the parking lane, between two rows of edged barricades",
    "on the other side of the street, by the corner",
    "over the lawn behind the walk",
    "through the verge on plates",
    "as the engineer says",
)
GROUNDS = ("concrete", "asphalt", "lawn, heavy soil, average", "lawn, sandy soil, flat")


def inflows(make: Maker, names: list[str]) -> list[dict[str, Any]]:
    """Return what comes in: roofs and yards, one to twelve, and a pump now and then."""
    many = make.chance.choice((1, 2, 3, 4, make.chance.randint(5, 12)))
    places = [names[-1], *(make.chance.choice(names) for _ in range(many - 1))]
    flows = [_inflow(make, place, index) for index, place in enumerate(places, 1)]
    if make.likely(0.4):
        pump = {
            "rate": "12 gpm",
            "lift": make.length(9),
            "air_gap": make.chance.choice(("yes", "no", "unknown")),
            "check_valve": make.chance.choice(("yes", "no", "unknown")),
        }
        if make.likely(0.5):
            pump["winter_route"] = "bubbler in the back lawn"
        flows.append({"name": "sump", "node": names[0], "kind": "sump", "pump": pump})
    return flows


def _inflow(make: Maker, node: str, index: int) -> dict[str, Any]:
    """Return a roof or a yard at a node."""
    feet = make.chance.randint(20, 500)
    area = f"{feet * 0.0929:.1f} m2" if make.metric else f"{feet} sq ft"
    row = {"name": f"{node} roof {index}", "node": node, "kind": "roof", "area": area}
    if make.likely(0.2):
        row |= {"name": f"yard {index}", "kind": "yard", "surface": make.chance.choice(GROUNDS)}
    return row


def cut(make: Maker, row: float, walk: float) -> dict[str, Any]:
    """Return the cut in the walk and the trench."""
    wide = make.between(2, 6)
    table: dict[str, Any] = {
        "length": make.length(walk * make.chance.choice((1.0, 1.0, 0.6))),
        "width": make.length(wide),
        "left_of_run": make.length(wide * make.between(0.3, 0.7)),
        "trench_length": make.length(row),
        "trench_width": make.size(make.between(8, 30)),
        "trench_depth": make.size(18),
        "removal": make.chance.choice(("whole panels", "part panel")),
        "crossing": make.chance.choice(("cut", "cut", "cut", "bored", "existing sleeve", "none")),
        "slab_at_pipe": make.chance.choice(
            ("plain", "plain", "encased", "thickened", "thinned", "plate")
        ),
    }
    if make.likely(0.5):
        table["saw_depth"] = make.size(make.between(1, 5))
    return table


def restoration(make: Maker) -> dict[str, Any]:
    """Return how the walk is put back: next to nothing told, or everything."""
    table: dict[str, Any] = {"grout": "non-shrink grout"}
    if make.likely(0.4):
        return table
    table |= {
        "thickness": make.size(make.between(4, 7)),
        "base": make.size(make.between(2, 8)),
        "base_material": make.chance.choice(("crushed stone", "sand", "recycled concrete")),
        "strength": "3500 psi",
        "strength_days": 28,
        "finish": "broom, across the walk",
        "score_pattern": "one panel, tooled edges, as the panels beside it",
        "cross_slope": make.chance.choice(("2 %", "1/4 in/ft")),
        "running_slope": "0.6 %",
        "lip": make.size(make.chance.choice((0, 0.25))),
        "joint": make.chance.choice(("tooled", "tooled at the old joint lines, " * 4)),
        "dowels": make.likely(0.5),
        "backfill": make.chance.choice(("clean spoil", "bedding sand, then the clean spoil " * 5)),
        "soil": "4 in of screened topsoil",
        "seed": "tall fescue mix under straw",
        "hours_to_feet": 24,
        "days_to_wheels": 7,
    }
    return table


def traffic(make: Maker) -> dict[str, Any]:
    """Return what is closed, for how long, and the way round."""
    table: dict[str, Any] = {
        "walk_closed": make.likely(0.6),
        "walk_closed_days": make.chance.choice((0, 1, 3, 30)),
        "lane_taken": make.chance.choice(LANES),
        "set_by": "the crew's foreman",
        "drive_blocked": make.chance.choice(("yes", "no", "unknown")),
        "neighbours_told": make.likely(0.5),
        "bus_stop_in_zone": make.likely(0.2),
    }
    if table["lane_taken"] != "none":
        table["width_taken"] = make.length(8)
        table["lane_left"] = make.length(make.between(8, 12))
        table |= {"taper": make.length(make.between(20, 300))} if make.likely(0.5) else {}
    if table["walk_closed"] and make.likely(0.8):
        table["way_round"] = {
            "where": make.chance.choice(WAYS),
            "width": make.length(make.between(3, 6)),
            "detectable": make.likely(0.7),
            "ramps": make.likely(0.7),
            "signs_ahead": make.likely(0.7),
        }
    if make.likely(0.5):
        night = "panel barricaded, plated and lit; way round left in place"
        table |= {
            "layout": "TA-28",
            "hours_from": "08:00",
            "hours_to": "16:30",
            "bin_day": "Friday",
        }
        table["overnight"] = make.chance.choice((night, night + "; looked at every two hours" * 9))
    return table
