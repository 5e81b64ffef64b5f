"""What is asked of the job as a whole, of the lot and the house, and of the levels."""

from __future__ import annotations

from permitkit.load.job_form.question import BURIED, EVERY, NOTCHES, Part, Question, at

__all__ = ["PARTS"]

_HEAD = (
    Question("schema", "The form of this file: always 1.", "1"),
    Question("town", "Whose rules hold: the name of the town's rule sheet.", '"millrace"'),
    Question(
        "filing", "The day the application is handed in; it picks the rules in force.", "2026-04-06"
    ),
    Question(
        "filed_at",
        "The hour it is handed in, on a clock of 24 hours; asked where the town counts from one.",
        '"10:30"',
        "not known; where a rule counts from an hour it becomes a question",
    ),
    Question("revision", "The letter of this packet; the next one each time it comes back.", '"A"'),
    Question("units", "What lengths are printed in: feet and inches, or meters on A4.", '"us"'),
    Question(
        "paper",
        "The paper of the drawings, where the town takes or asks for larger sheets; pages of text "
        "stay as they are.",
        '"tabloid"',
        "letter; A4 where lengths are printed in meters",
        aside=EVERY,
    ),
    Question(
        "nothing_else_within",
        "How far along the curb, each way from the outlet, you looked for things that last, so "
        "that [[feature]] lists all of them.",
        '"25 ft"',
        "the sheets do not say that the list is whole",
    ),
)

_SITE = (
    Question("site", "The lot."),
    Question("site.address", "The lot's address, with the town.", '"14 Tern Lane, Millrace"'),
    Question(
        "site.parcel",
        "The parcel number, from the tax bill or the county's map.",
        '"07-114-22"',
        "printed as not given",
    ),
    Question("site.owner", "The owner's name, as on the deed.", '"Ines Calloway"'),
    Question(
        "site.owner_phone", "The owner's telephone.", '"(555) 555-0117"', "printed as not given"
    ),
    Question(
        "site.frontage",
        "Tape along the curb from side line to side line. Stations run from the left one, as you "
        "look from the street to the house.",
        '"64 ft"',
    ),
    Question(
        "site.row_line_offset",
        "From the curb face (of a rolled curb: from the flow line) to the right-of-way line, "
        "square to the street; often a foot or less behind the walk.",
        '"11 ft 6 in"',
    ),
    Question(
        "site.row_line_basis",
        "Where that line comes from: a survey, the plat, scaled off a map, or assumed.",
        '"plat"',
        "assumed, and starred on the sheets",
    ),
    Question("site.north", "Which way north points as you look from the street.", '"up"'),
    Question(
        "site.cross_street",
        "The nearest cross street.",
        '"Heron Street"',
        "no cross street is shown",
    ),
    Question(
        "site.cross_street_distance",
        "From the left side line to its nearer curb, taped or off the map.",
        '"180 ft"',
        "the distance is not shown",
    ),
    Question(
        "site.cross_street_side",
        "On which side it lies, as you look from the street.",
        '"right"',
        "the side is not shown",
    ),
    Question(
        "site.soil",
        "The soil in the trench, by hand and eye, in the town's own word where it has one.",
        '"silty clay"',
        "not known; a rule that turns on the soil becomes a question",
        reads=("soil",),
    ),
    Question(
        "site.soil_soak_rate",
        "What the soil soaks up: a bored hole filled twice, the fall of the second filling, timed.",
        '"0.3 in/hr"',
        "not tested, so a dry well is not sized",
    ),
    Question(
        "site.storm_main_distance",
        "From the run to the nearest storm main, off the town's map.",
        '"140 ft"',
        "not known; a rule that turns on it becomes a question",
        reads=("storm_main",),
    ),
    Question(
        "site.zone",
        "The lot's zone, off the zoning map.",
        '"R-1"',
        "not known; a rule that turns on it becomes a question",
        reads=("zone",),
    ),
    Question(
        "site.building_use",
        "What the building is used for.",
        '"house"',
        "not known; a rule that turns on it becomes a question",
        reads=("building_use",),
    ),
    Question(
        "site.paved_area",
        "How much of the lot is roofed or paved, where the town asks.",
        '"2,400 sq ft"',
        "not known; a rule that turns on it becomes a question",
        reads=("paved_area",),
    ),
    Question(
        "site.house",
        "The house on the plan.",
        left_out="the house is not drawn",
    ),
    Question(
        "site.house.front_offset", "From the curb face to the wall on the street side.", '"42 ft"'
    ),
    Question(
        "site.house.left", "Station of the house's left end, from the left side line.", '"13 ft"'
    ),
    Question(
        "site.house.right", "Station of its right end, from the left side line.", '"51 ft 6 in"'
    ),
    Question(
        "site.house.depth",
        "From the front wall to the rear wall.",
        '"30 ft"',
        "drawn open to the rear",
    ),
)

_LEVELS = (
    Question(
        "level",
        "How the levels were taken. A level anywhere in this file is an elevation, or a reading on "
        'the rod such as "rod 4.70 ft" where a set-up is given.',
    ),
    Question(
        "level.benchmark",
        "The point that all levels start from; one that will be there when the inspector comes.",
        '"curb top at the hole"',
        others=at(NOTCHES, '"curb top at the notch"') | at(BURIED, '"curb top before the lot"'),
    ),
    Question(
        "level.benchmark_level",
        "Its elevation: the town's, or a round one of your own.",
        '"100.00 ft"',
    ),
    Question(
        "level.error",
        "How far off a level may be with your instrument over this distance, up or down.",
        '"1/8 in"',
    ),
    Question(
        "level.setup",
        "Each set-up of the level. Begin with a shot on the benchmark and close on it again.",
        left_out="every level is given as an elevation",
    ),
    Question("level.setup.name", "What you call the set-up.", '"1"'),
    Question("level.setup.on", "The point it looks back to.", '"benchmark"'),
    Question("level.setup.backsight", "The reading on that point, first thing.", '"4.20 ft"'),
    Question(
        "level.setup.closing",
        "The reading on that point again, last thing, before the level is moved.",
        '"4.20 ft"',
        "the set-up is not closed, and that is told",
    ),
    Question(
        "level.setup.closing_on",
        "Another point whose level is known, if you closed on that one.",
        '"benchmark"',
        "closed on the point it looks back to",
    ),
    Question(
        "level.setup.foresight",
        "The reading on a turning point that the next set-up looks back to.",
        '"5.10 ft"',
        "no turning point",
    ),
    Question(
        "level.setup.turning_point",
        "What that turning point is called.",
        '"nail in the walk"',
        "no turning point",
    ),
)

PARTS = (
    Part("the job", _HEAD),
    Part("the lot and the house", _SITE),
    Part("levels", _LEVELS),
)
