"""What is asked of the work: the cut, and how everything is put back."""

from __future__ import annotations

from permitkit.load.job_form.question import BURIED, CROSSING, EVERY, Part, Question, at

__all__ = ["PARTS"]

_LEAST = "the town's least is built"
_ON_LOT = BURIED[:2]

_CUT = (
    Question("cut", "What is opened in the walk and the right-of-way."),
    Question(
        "cut.crossing",
        "How the walk is crossed: cut, bored under, through a sleeve that is there, or not at all.",
        '"cut"',
        others=at(_ON_LOT, '"none"'),
        reads=("crossing", "walk.crossing"),
    ),
    Question(
        "cut.length",
        "The cut along the run: mostly the width of the walk.",
        '"5 ft"',
        "the width of the walk",
        outlets=CROSSING,
        reads=("walk_area", "area"),
    ),
    Question(
        "cut.width",
        "The cut along the walk, saw line to saw line.",
        '"5 ft"',
        "the trench, or the panel over it where panels go whole",
        outlets=CROSSING,
        reads=("walk_area", "area"),
    ),
    Question(
        "cut.left_of_run",
        "How much of that lies left of the run's center line.",
        '"30 in"',
        "half of it",
        outlets=CROSSING,
    ),
    Question(
        "cut.removal",
        "Whether panels are taken out whole, or in part.",
        '"whole panels"',
        outlets=CROSSING,
        reads=("walk.removal",),
    ),
    Question(
        "cut.saw_depth",
        "How deep the saw goes.",
        '"4 in"',
        _LEAST,
        outlets=CROSSING,
        reads=("walk.saw_depth",),
    ),
    Question(
        "cut.trench_length",
        "The trench in the right-of-way, along the run; with a notch, the curb as well.",
        '"11 ft"',
        "from the curb to the right-of-way line",
        others=at(_ON_LOT, '"0 ft"'),
        reads=("trench",),
    ),
    Question(
        "cut.trench_width",
        "Its width, at the top.",
        '"12 in"',
        "no area is reckoned beside the walk",
        reads=("area",),
    ),
    Question(
        "cut.trench_depth",
        "Its greatest depth.",
        '"12 in"',
        "by the levels",
        reads=("depth",),
    ),
    Question(
        "cut.trench_runs",
        "How the trench lies to the walk.",
        '"across the walk"',
        "not known; a rule that turns on it becomes a question",
        outlets=CROSSING,
        reads=("trench_runs",),
    ),
    Question(
        "cut.curb_removed",
        "The length of curb broken out and replaced; a hole or a notch counts as none.",
        '"3 ft"',
        "none",
        aside=EVERY,
        reads=("curb_length", "restore.curb_piece"),
    ),
    Question(
        "cut.curb_by",
        "Who cuts or cores the curb, where that is not the permit holder.",
        '"contractor"',
        "the permit holder",
    ),
    Question(
        "cut.pavement_cut",
        "How far into the pavement it is cut, from the curb.",
        '"2 ft"',
        "none",
        aside=EVERY,
        reads=("pavement_cut", "pavement_area"),
    ),
    Question(
        "cut.touches_ramp",
        "Whether the cut touches a curb ramp or its landing.",
        "false",
        reads=("access.ramp_cut",),
    ),
    Question(
        "cut.slab_at_pipe",
        "How the new slab is made over the pipe, where that stands up into it.",
        '"plain"',
        outlets=CROSSING,
        reads=("walk.pipe_in_slab", "walk.over_pipe"),
    ),
    Question(
        "cut.cost",
        "The cost of the work in the right-of-way.",
        "1850",
        "not known; a fee that turns on it stays open",
        reads=("cost",),
    ),
    Question(
        "cut.begun",
        "Whether work began before the permit.",
        "false",
        reads=("begun",),
    ),
)

_RESTORATION = (
    Question("restoration", "How everything is put back."),
    Question(
        "restoration.by",
        "Who puts it back.",
        '"applicant"',
        reads=("restored_by",),
    ),
    Question(
        "restoration.thickness",
        "How thick the new slab is.",
        '"4 in"',
        _LEAST,
        reads=("walk.thickness", "restore.state:thickness"),
    ),
    Question(
        "restoration.base",
        "How thick the base under it is, compacted.",
        '"4 in"',
        _LEAST,
        reads=("walk.base", "restore.state:base"),
    ),
    Question(
        "restoration.base_material",
        "What the base is of.",
        '"crushed stone"',
        "not stated",
        reads=("restore.state:base_material",),
    ),
    Question(
        "restoration.strength",
        "The concrete's strength, from the ticket you order by.",
        '"3,500 psi"',
        _LEAST,
        reads=("strength", "walk.strength", "restore.state:strength"),
    ),
    Question(
        "restoration.strength_days",
        "The age in days that strength is meant at.",
        "28",
        "the town's age",
        reads=("walk.strength_age",),
    ),
    Question(
        "restoration.finish",
        "The finish of its face.",
        '"broom, across the walk"',
        "not stated",
        reads=("restore.state:finish",),
    ),
    Question(
        "restoration.matches",
        "Whether finish, pattern and material match what was there.",
        "true",
        reads=("restore.match",),
    ),
    Question(
        "restoration.score_pattern",
        "Its lines and edges.",
        '"one panel, tooled edges, as the panels beside it"',
        "not stated",
        reads=("restore.state:score_pattern",),
    ),
    Question(
        "restoration.cross_slope",
        "Fall across the new panel.",
        '"2.0 %"',
        "as the walk is now",
        reads=("access.cross_slope", "restore.state:cross_slope"),
    ),
    Question(
        "restoration.running_slope",
        "Fall along it.",
        '"0.6 %"',
        "as the walk is now",
        reads=("access.running_slope", "restore.state:running_slope"),
    ),
    Question(
        "restoration.lip",
        "The step at its joints.",
        '"0 in"',
        "laid flush",
        reads=("access.lip", "restore.state:lip"),
    ),
    Question(
        "restoration.lip_bevelled", "Whether that step is beveled.", "false", reads=("bevelled",)
    ),
    Question(
        "restoration.joint",
        "How new meets old.",
        '"tooled at the old joint lines, 1/2 in filler at both ends"',
        "not stated",
        reads=("restore.state:joint",),
    ),
    Question("restoration.dowels", "Whether dowels tie new to old.", "false", reads=("dowels",)),
    Question(
        "restoration.grout",
        "What fills the gap round the pipe in the curb, or a hole that is plugged.",
        '"non-shrink grout"',
        "the town's is used",
        reads=("restore.grout", "restore.state:grout"),
    ),
    Question(
        "restoration.backfill",
        "What goes back into the trench.",
        '"bedding sand to 4 in over the pipe, then the clean spoil"',
        "not stated",
        reads=("restore.state:backfill",),
    ),
    Question(
        "restoration.lift",
        "How thick each lift of it is.",
        '"6 in"',
        _LEAST,
        reads=("restore.lift", "restore.state:lift"),
    ),
    Question(
        "restoration.density",
        "How dense it is rammed.",
        '"95 %"',
        _LEAST,
        reads=("restore.density", "restore.state:density"),
    ),
    Question(
        "restoration.soil",
        "What soil goes on top.",
        '"4 in of screened topsoil"',
        "not stated",
        reads=("restore.state:soil",),
    ),
    Question(
        "restoration.seed",
        "What is sown or laid.",
        '"tall fescue mix under straw"',
        "not stated",
        reads=("restore.state:seed",),
    ),
    Question(
        "restoration.hours_to_feet",
        "Hours until people may walk on it.",
        "24",
        "the town's least is kept",
        reads=("restore.to_feet", "restore.state:hours_to_feet"),
    ),
    Question(
        "restoration.days_to_wheels",
        "Days until wheels may cross it.",
        "7",
        "the town's least is kept",
        reads=("restore.to_wheels", "restore.state:days_to_wheels"),
    ),
)

PARTS = (
    Part("the cut", _CUT),
    Part("how it is put back", _RESTORATION),
)
