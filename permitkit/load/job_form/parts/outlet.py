"""What is asked of the outlet: its place, its hole or notch, or the emitter in the lawn."""

from __future__ import annotations

from permitkit.load.job_form.question import (
    BURIED,
    CORED,
    EVERY,
    HOLES,
    NOTCHED,
    NOTCHES,
    Part,
    Question,
    Row,
    at,
)

__all__ = ["PARTS"]

_EMITTER = BURIED[:1]
_AT_CURB = (*HOLES, *NOTCHES)

_OUTLET = (
    Question("outlet", "How the water is let go."),
    Question(
        "outlet.kind",
        "The way proposed.",
        '"core"',
        others={kind: f'"{kind}"' for kind in EVERY},
        reads=("outlet", "outlet.allowed"),
    ),
    Question(
        "outlet.station",
        "Its middle, from the left side line along the curb face; of several, the middle of all.",
        '"12 ft"',
        reads=("outlet.to_line",),
    ),
    Question(
        "outlet.count", "How many holes or notches.", "1", outlets=_AT_CURB, reads=("outlet.count",)
    ),
    Question(
        "outlet.spacing",
        "Of several: middle to middle.",
        '"24 in"',
        "there is only one",
        outlets=_AT_CURB,
        aside=_AT_CURB,
        reads=("core.apart",),
    ),
    Question(
        "outlet.pipe",
        "The pipe in the hole or the notch, where it is another than the last length.",
        '"3 in Sch 40 PVC"',
        "the pipe of the last length",
        others=at(NOTCHES, '"5 x 2 x 3/16 in steel tube"'),
        outlets=_AT_CURB,
        reads=("pipe.kind",),
    ),
    Question(
        "outlet.fittings",
        "The fittings of the line, in the words of the town's sheet.",
        '["reducer behind the walk"]',
        "not known; where the town asks for one it becomes a question",
        reads=("pipe.fittings",),
    ),
    Question(
        "outlet.bit",
        "The outside diameter of the core bit: what the hole will measure.",
        '"4 in"',
        "the size of the hole that is used again",
        outlets=HOLES,
        needed_for=CORED,
        reads=("core.bit",),
    ),
    Question(
        "outlet.hole_bottom",
        "The hole's lowest point above the gutter flow line. Give this, or the invert, or the "
        "center below the curb top; one of the three.",
        '"3/8 in"',
        "given as invert or centre_below_top",
        outlets=HOLES,
        needed_for=HOLES,
        reads=("core.height", "core.strip", "outlet.height"),
    ),
    Question(
        "outlet.invert",
        "In place of hole_bottom: the inside bottom of the pipe above the gutter flow line.",
        '"7/8 in"',
        "given as hole_bottom or centre_below_top",
        outlets=HOLES,
        aside=HOLES,
    ),
    Question(
        "outlet.centre_below_top",
        "In place of hole_bottom: the hole's center below the curb top.",
        '"3 5/8 in"',
        "given as hole_bottom or invert",
        outlets=HOLES,
        aside=HOLES,
    ),
    Question(
        "outlet.drill_from",
        "Whether the rig stands behind the curb or in the street.",
        '"behind"',
        outlets=CORED,
    ),
    Question(
        "outlet.barrel_out",
        "How far the bit's barrel stands past the face when the hole is through.",
        '"9 in"',
        outlets=CORED,
    ),
    Question(
        "outlet.width",
        "The width of the notch at its floor.",
        '"5 1/2 in"',
        outlets=NOTCHES,
        needed_for=NOTCHES,
        reads=("notch.width",),
    ),
    Question(
        "outlet.floor_toe",
        "Its floor above the gutter flow line, at the street end.",
        '"1/2 in"',
        "at the flow line",
        outlets=NOTCHES,
        needed_for=NOTCHED,
        reads=("notch.floor",),
    ),
    Question(
        "outlet.floor_slope",
        "The fall of its floor toward the street.",
        '"2 %"',
        "level",
        outlets=NOTCHES,
        needed_for=NOTCHED,
        reads=("notch.slope",),
    ),
    Question(
        "outlet.taper",
        "By how much each side spreads from floor to top.",
        '"1/4 in"',
        "the sides stand upright",
        outlets=NOTCHES,
    ),
    Question(
        "outlet.edge_radius",
        "The rounding of its edges.",
        '"1/4 in"',
        "edges left square",
        outlets=NOTCHES,
    ),
    Question(
        "outlet.plate",
        "The cover over it, and how it is held.",
        '"checker plate over the back 6 in, flush, screwed down"',
        "no cover",
        outlets=NOTCHES,
    ),
    Question(
        "outlet.plate_gap",
        "The widest gap in or beside that cover.",
        '"3/8 in"',
        "no gap to trip in",
        outlets=NOTCHES,
        reads=("access.opening",),
    ),
    Question(
        "outlet.at_drive",
        "Whether wheels cross the curb where the notch is.",
        "false",
        outlets=NOTCHES,
        reads=("notch.at_drive",),
    ),
    Question(
        "outlet.tie_line",
        "First tie for the inspector: from a line to the outlet's middle.",
        '"12 ft"',
        "no tie is drawn",
    ),
    Question(
        "outlet.tie_line_from",
        "The line that tie is taped from.",
        '"left side line extended"',
        "the side line",
    ),
    Question(
        "outlet.tie_object",
        "Second tie: from a lasting thing to the outlet's middle.",
        '"22 ft"',
        "no second tie is drawn",
    ),
    Question(
        "outlet.tie_object_from",
        "The thing that tie is taped from.",
        '"town tree"',
        "not told",
    ),
    Question(
        "outlet.maintained_by",
        "Who keeps it clear from now on.",
        '"the owner"',
        "nobody is named",
        reads=("outlet.who_maintains",),
    ),
    Question(
        "outlet.built_before",
        "The day the house or an old outlet was built or altered, where a rule turns on it.",
        "1978-05-01",
        "not known; a rule that turns on it becomes a question",
        reads=("built",),
    ),
    Question(
        "outlet.other_way",
        "Whether the water has another acceptable outlet.",
        "false",
        "not known; a rule that turns on it becomes a question",
        reads=("other_outlet",),
    ),
    Question(
        "outlet.harm",
        "Whether the water let go ices a walk or harms a neighbor.",
        "false",
        "not known; a rule that turns on it becomes a question",
        reads=("harm",),
    ),
)

_EMITTERS = (
    Question(
        "outlet.emitter",
        "The emitter in the lawn.",
        left_out="there is none",
        outlets=_EMITTER,
        needed_for=_EMITTER,
    ),
    Question(
        "outlet.emitter.rim",
        "Level of its rim.",
        '"100.35 ft"',
    ),
    Question(
        "outlet.emitter.lid_loss",
        "What lid it has.",
        '"pop-up lid"',
    ),
    Question(
        "outlet.emitter.rise",
        "From the pipe's invert up to the rim.",
        '"6 in"',
        "by the levels",
    ),
    Question(
        "outlet.emitter.weep",
        "The diameter of the weep hole at its foot.",
        '"3/8 in"',
        "no weep hole",
        reads=("emitter.weep",),
    ),
    Question(
        "outlet.emitter.pit_length",
        "The stone pit under it: length.",
        '"2 ft"',
        "no pit",
        reads=("emitter.weep",),
    ),
    Question(
        "outlet.emitter.pit_width", "The pit's width.", '"2 ft"', "no pit", reads=("emitter.weep",)
    ),
    Question(
        "outlet.emitter.pit_depth",
        "The pit's depth.",
        '"1 ft 6 in"',
        "no pit",
        reads=("emitter.weep",),
    ),
    Question(
        "outlet.emitter.pit_voids",
        "The share of the pit that is void between the stones.",
        '"40 %"',
        "no pit",
        reads=("emitter.weep",),
    ),
    Question(
        "outlet.emitter.to_row",
        "From the emitter to the right-of-way line.",
        '"11 ft"',
        reads=("emitter.to_row",),
    ),
    Question(
        "outlet.emitter.to_side_line",
        "To the nearer side line.",
        '"12 ft"',
        reads=("emitter.to_line",),
    ),
    Question(
        "outlet.emitter.to_walk",
        "To the public walk.",
        '"12 ft"',
        reads=("emitter.to_walk",),
    ),
    Question(
        "outlet.emitter.to_house",
        "To the nearest wall of a house, this one or the neighbor's.",
        '"19 ft"',
        reads=("emitter.to_house",),
    ),
    Question(
        "outlet.emitter.falls_to",
        "Which way the ground falls from it.",
        '"street"',
        reads=("falls_to",),
    ),
    Question(
        "outlet.emitter.yard",
        "Which yard it stands in.",
        '"front"',
        "not known; a rule that turns on it becomes a question",
        outlets=_EMITTER,
        reads=("yard",),
    ),
    Question(
        "outlet.emitter.ground_slope",
        "How steeply, over the next 10 ft.",
        '"1.5 %"',
        "not known",
    ),
    Question(
        "outlet.emitter.crosses_walk",
        "Whether what comes over the rim runs across the walk.",
        "false",
        reads=("emitter.over_walk",),
    ),
)

_PASSED = (
    Question(
        "outlet.passed_over",
        "Each way the town would rather have, and why it does not work here.",
        left_out="no better way is passed over",
        reads=("outlet.order", "other_outlet"),
    ),
    Question(
        "outlet.passed_over.way",
        "The way, in the word of the town's order.",
        '"storm lateral"',
        others=at(("storm lateral",), '"dry well"'),
    ),
    Question(
        "outlet.passed_over.because",
        "Why not here, with the number that shows it.",
        '"the nearest main lies 140 ft away"',
        others=at(("storm lateral",), '"the soil takes 0.3 in/hr in a bored hole"'),
    ),
    Row(
        "outlet.passed_over",
        "The next one; and so on.",
        {"way": '"dry well"', "because": '"the soil takes 0.3 in/hr in a bored hole"'},
        tuple(kind for kind in EVERY if kind not in {"dry well", "storm lateral"}),
    ),
)

PARTS = (Part("the outlet", (*_OUTLET, *_EMITTERS, *_PASSED)),)
