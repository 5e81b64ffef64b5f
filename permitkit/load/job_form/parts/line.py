"""What is asked of the run from the house: nodes, pipes, water, rain, and the ground over it."""

from __future__ import annotations

from permitkit.load.job_form.question import (
    BURIED,
    EVERY,
    NOTCHED,
    NOTCHES,
    Part,
    Question,
    Row,
    at,
)

__all__ = ["PARTS"]

_TUBE = '"5 x 2 x 3/16 in steel tube"'
_HOUSE = '"41 ft 6 in"'
_TO_PIT = '"19 ft"'

_NODES = (
    Question("drain", "The run, from the house to where the water is let go."),
    Question(
        "drain.node",
        "Each point of the run where water enters, the pipe bends, changes or can be opened; the "
        "curb itself is no node.",
        needed_for=EVERY,
        left_out="only where there is no pipe, and [drain.verge] stands in its place",
    ),
    Question("drain.node.name", "What you call it.", '"N1"'),
    Question(
        "drain.node.ground", "Level of the ground over it, shot beside the pipe.", '"100.85 ft"'
    ),
    Question(
        "drain.node.invert",
        "Level of the inside bottom of the pipe there, shot with the rod in the pipe.",
        '"100.00 ft"',
        others=at(NOTCHES, '"100.35 ft"') | at(BURIED, '"100.20 ft"'),
    ),
    Question(
        "drain.node.opening",
        "Level of the lowest place where water could get out there: a grate, a leaf screen, a "
        "window well, a loose joint.",
        '"101.20 ft"',
        "it gets out at the ground",
    ),
    Question(
        "drain.node.opening_kind", "What that place is.", '"leaf screen"', "called the opening"
    ),
    Question("drain.node.sealed", "Whether nothing can get out there at all.", "false"),
    Question(
        "drain.node.cleanout",
        "Whether the pipe can be opened and rodded from there.",
        "true",
        reads=("pipe.cleanout_spacing", "pipe.cleanout_at_walk"),
    ),
    Question(
        "drain.node.station",
        "Along the street from the left side line, to draw it.",
        '"12 ft"',
        "drawn straight behind the outlet",
    ),
    Question(
        "drain.node.offset",
        "From the curb face, to draw it.",
        _HOUSE,
        "drawn by the lengths of pipe",
    ),
    Row(
        "drain.node",
        "Where the water is let go: the emitter or the pit. The node is called outlet.",
        {"name": '"outlet"', "ground": '"100.33 ft"', "invert": '"99.85 ft"'},
        ("emitter", "dry well"),
        needed=True,
        fixed=("name",),
    ),
    Row(
        "drain.node",
        "Where the water is let go: the main, or the lateral kept for this lot, by the town's "
        "levels. The node is called outlet.",
        {"name": '"outlet"', "ground": '"100.05 ft"', "invert": '"98.40 ft"'},
        ("storm lateral",),
        needed=True,
        fixed=("name",),
    ),
)

_PIPES = (
    Question(
        "drain.reach",
        "Each length of pipe, from a higher node to the next one down.",
        needed_for=EVERY,
        left_out="only where there is no pipe, and [drain.verge] stands in its place",
    ),
    Question("drain.reach.upper", "The node it comes from.", '"N1"'),
    Question("drain.reach.lower", "The node it goes to; at the end of all, outlet.", '"outlet"'),
    Question(
        "drain.reach.length",
        "Tape along the trench, bends and all.",
        _HOUSE,
        others=at(("emitter", "dry well"), _TO_PIT),
    ),
    Question(
        "drain.reach.pipe",
        "The pipe as stamped on it: size, schedule or series, material.",
        '"3 in Sch 40 PVC"',
        others=at(NOTCHES, _TUBE),
        reads=("pipe.kind", "pipe.size"),
    ),
    Question("drain.reach.barrels", "How many of them lie side by side.", "1"),
    Question(
        "drain.reach.bends",
        "The angle of each bend in it, in order from the house.",
        '["45 deg", "45 deg"]',
        "straight",
    ),
    Question(
        "drain.reach.surface",
        "What lies over it for the most part; where a driveway crosses, the drive.",
        '"lawn"',
        reads=("surface", "pipe.cover", "pipe.under_drive"),
    ),
    Question(
        "drain.reach.house_distance",
        "How near to the building this reach comes.",
        '"12 ft"',
        "not known; a rule that turns on it becomes a question",
        reads=("house_distance",),
    ),
    Question(
        "drain.reach.slope_stated",
        "The slope you were told or wrote down, to be held against the levels.",
        '"1 %"',
        "the levels alone tell",
        others=at(NOTCHES, '"1.5 %"') | at(BURIED, '"1.8 %"') | at(("storm lateral",), '"4.3 %"'),
    ),
    Question(
        "drain.reach.joints",
        "Whether its joints hold water: tight where glued or gasketed, loose where laid dry.",
        '"tight"',
    ),
)

_WATER = (
    Question(
        "drain.inflow",
        "Each roof, drain or pump that enters, for itself.",
        needed_for=EVERY,
        left_out="no water enters, and nothing is computed",
    ),
    Question("drain.inflow.name", "What you call it.", '"front downspout"'),
    Question("drain.inflow.node", "The node where it enters.", '"N1"'),
    Question(
        "drain.inflow.kind",
        "What water it is: of a roof, a footing drain, a sump, a yard, and so on.",
        '"roof"',
        reads=("water.allowed", "water"),
    ),
    Question(
        "drain.inflow.area",
        "The area that drains here, as seen from above: tape the eaves, not the slope. For a pump "
        "take the line out.",
        '"520 sq ft"',
        "a pump brings it",
        needed_for=EVERY,
    ),
    Question(
        "drain.inflow.wall_area",
        "The wall above that roof which sheds rain onto it, length times height.",
        '"120 sq ft"',
        "no wall",
    ),
    Question(
        "drain.inflow.runoff",
        "The share that runs off, where a book or the town gives one.",
        '"95 %"',
        "by the surface, or all of it where none is named",
    ),
    Question(
        "drain.inflow.runoff_source",
        "The book or the town that gives it; needed beside runoff.",
        '"the town\'s drainage manual"',
        "runoff is left out too",
    ),
    Question(
        "drain.inflow.surface",
        "In place of runoff: what the rain falls on, and a table gives the share.",
        '"concrete"',
        "by runoff, or all of it where that is not given",
        aside=EVERY,
    ),
    Question(
        "drain.inflow.leader",
        "The inside width of the leader that brings it; of a round one the diameter.",
        '"3 in"',
        "the leader holds nothing back",
        reads=("pipe.roof_per_square_inch",),
    ),
    Question(
        "drain.inflow.leader_depth",
        "The other side of a rectangular leader.",
        '"4 in"',
        "the leader is round",
    ),
    Question("drain.inflow.leaders", "How many such leaders share the area.", "1"),
    Row(
        "drain.inflow",
        "A sump, with its pump below.",
        {"name": '"sump"', "node": '"N1"', "kind": '"sump"'},
    ),
    Question("drain.inflow.pump", "The pump of the inflow above.", left_out="no pump"),
    Question(
        "drain.inflow.pump.rate",
        "What it pumps at that lift: bucket and watch, or the pit's fall timed. It is never "
        "assumed.",
        '"12 gpm"',
    ),
    Question(
        "drain.inflow.pump.lift",
        "From the water in the pit up to where it enters the run.",
        '"9 ft"',
    ),
    Question(
        "drain.inflow.pump.air_gap",
        "Whether its pipe ends above the run's, with air between.",
        '"yes"',
        reads=("water.air_gap",),
    ),
    Question(
        "drain.inflow.pump.check_valve",
        "Whether a valve keeps the water from falling back.",
        '"yes"',
    ),
    Question(
        "drain.inflow.pump.months",
        "The months it lets go to the street, 1 to 12.",
        "[4, 5, 6, 7, 8, 9, 10]",
        "all twelve",
        reads=("water.sump_season",),
    ),
    Question(
        "drain.inflow.pump.winter_route",
        "Where it pumps to in frost instead.",
        '"bubbler in the back lawn, valve turned from Nov 15 to Mar 31"',
        "no other way in winter",
        reads=("water.sump_season",),
    ),
    Question(
        "drain.verge",
        "In place of a pipe: water trapped between walk and curb, let out by notches. The inflows "
        'then enter at the node "verge".',
        left_out="the water comes by pipe",
        outlets=NOTCHED,
        aside=NOTCHED,
    ),
    Question(
        "drain.verge.length",
        "The stretch along the curb whose water gathers there.",
        '"60 ft"',
    ),
    Question(
        "drain.verge.low",
        "Level of the lowest ground in the hollow.",
        '"99.80 ft"',
    ),
    Question(
        "drain.verge.spill",
        "Level at which it would run over: the walk's edge, a drive.",
        '"100.10 ft"',
        "the walk's edge on the curb side",
    ),
)

_RAIN = (
    Question("rain", "The design rain, only where the town's sheet gives none."),
    Question(
        "rain.intensity",
        "How hard it rains, from the table of your county.",
        '"4.0 in/hr"',
        "the town's",
        reads=("water.rain",),
    ),
    Question("rain.period", "How often it comes.", '"25-year"', "the town's"),
    Question("rain.duration", "How long it lasts.", '"15 min"', "the town's"),
    Question("rain.source", "Where that was read.", '"county rainfall table, 2024"', "the town's"),
    Question(
        "rain.table",
        "In place of the intensity: a table of intensities as a file beside this one, read at "
        "that period and duration.",
        '"rain.csv"',
        "no table is read",
        aside=EVERY,
    ),
)

_GROUND = (
    Question(
        "ground",
        "Each point of the ground along the run where it breaks or changes, from the street to "
        "the house.",
        left_out="straight lines between the curb, the walk's edges and the nodes",
    ),
    Question(
        "ground.at",
        "Along the run, from the curb face; of a rolled curb from the flow line.",
        '"6 in"',
        others=at(NOTCHES, '"1 ft"'),
    ),
    Question("ground.level", "Level of the ground there.", '"100.00 ft"'),
    Question(
        "ground.surface",
        "What begins there, going toward the house.",
        '"verge"',
        "as walk, verge and reach tell",
    ),
    Row(
        "ground",
        "The next one; and so on.",
        {"at": '"5 ft 6 in"', "level": '"100.10 ft"', "surface": '"walk"'},
    ),
    Row(
        "ground",
        "Behind the walk, and so on to the house.",
        {"at": '"10 ft 6 in"', "level": '"100.20 ft"', "surface": '"lawn"'},
    ),
)

PARTS = (
    Part("the run, from the house", (*_NODES, *_PIPES)),
    Part("the water", (*_WATER, *_RAIN)),
    Part("the ground along the run", _GROUND),
)
