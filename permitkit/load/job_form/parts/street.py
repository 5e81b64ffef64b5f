"""What is asked at the street: walk, verge, curb, gutter, what stands there, what lies under it."""

from __future__ import annotations

from permitkit.load.job_form.question import EVERY, HOLES, NOTCHES, Part, Question, Row, at

__all__ = ["PARTS"]

_REUSED = HOLES[1:]
_ROLLED = at(NOTCHES, '"rolled"')
_NOT_ROLLED = tuple(kind for kind in EVERY if kind not in NOTCHES)

_WALK = (
    Question("walk", "The public walk where the run crosses it."),
    Question("walk.width", "Across, edge to edge.", '"5 ft"', reads=("walk_width", "walk.width")),
    Question("walk.panel_length", "Joint to joint, along the walk.", '"5 ft"'),
    Question(
        "walk.joint_left_of_run",
        "From the run's center line to the nearest joint on its left, as you look from the street.",
        '"30 in"',
    ),
    Question(
        "walk.surface",
        "What it is made of.",
        '"concrete"',
        reads=("walk_surface",),
    ),
    Question(
        "walk.thickness",
        "How thick the slab is now: probed at a joint, or seen at an earlier cut.",
        '"4 in"',
        reads=("walk.as_removed",),
    ),
    Question(
        "walk.use",
        "Whether it is plain walk there, a driveway's crossing, or a ramp.",
        '"plain"',
        reads=("walk_use",),
    ),
    Question(
        "walk.cross_slope",
        "Fall across it where the run crosses, with a 2 ft or 4 ft level.",
        '"2.0 %"',
        reads=("access.cross_slope",),
    ),
    Question(
        "walk.cross_slope_left",
        "The same on the panel to the left.",
        '"1.8 %"',
        "that neighbor is not held against the new panel",
    ),
    Question(
        "walk.cross_slope_right",
        "The same on the panel to the right.",
        '"2.0 %"',
        "that neighbor is not held against the new panel",
    ),
    Question(
        "walk.running_slope",
        "Fall along it, with the same level.",
        '"0.6 %"',
        "not known, and not judged",
        reads=("access.running_slope",),
    ),
    Question("walk.level_curb_side", "Level of its edge toward the curb.", '"100.10 ft"'),
    Question("walk.level_house_side", "Level of its edge toward the house.", '"100.20 ft"'),
)

_VERGE = (
    Question("verge", "The strip between curb and walk."),
    Question(
        "verge.width",
        "From the back of the curb to the walk; 0 in where the walk stands at the curb.",
        '"5 ft"',
        others=at(NOTCHES, '"4 ft 6 in"'),
    ),
    Question("verge.surface", "What covers it.", '"verge"'),
    Question(
        "verge.level_curb_side",
        "Level of the ground right behind the curb.",
        '"100.00 ft"',
        "level with the curb top",
    ),
)

_CURB = (
    Question("curb", "The curb at the outlet."),
    Question(
        "curb.shape",
        "Its shape in section; none where the street has no curb.",
        '"vertical"',
        others=_ROLLED,
        reads=("curb", "core.curbs", "notch.curbs"),
    ),
    Question(
        "curb.reveal",
        "Curb top above the gutter flow line, by tape and a small level: one reading, or three, "
        "the first at the outlet, then 2 ft to each side.",
        '["6 in", "6 in", "6 1/8 in"]',
        others=at(NOTCHES, '["4 in", "4 in", "4 in"]'),
    ),
    Question(
        "curb.top_width",
        "Across the top; of a curb that rolls all the way, the roll.",
        '"6 in"',
        others=at(NOTCHES, '"12 in"'),
    ),
    Question(
        "curb.roll_width",
        "Of a rolled curb: from the flow line to its back. Of another, this line goes out.",
        '"12 in"',
        "the curb is not rolled",
        needed_for=NOTCHES,
        aside=_NOT_ROLLED,
    ),
    Question("curb.batter", "How far the face leans back for its height.", '"1:12"'),
    Question("curb.radius", "The rounding of its top edge.", '"1/2 in"'),
    Question("curb.base_depth", "From its top to its underside, where it can be seen.", '"18 in"'),
    Question(
        "curb.joint_left",
        "From the outlet's center to the first joint or crack in the curb on the left.",
        '"26 in"',
        "not known, and the distance to it is not judged",
        reads=("core.to_joint",),
    ),
    Question(
        "curb.joint_right",
        "The same on the right.",
        '"94 in"',
        "not known, and the distance to it is not judged",
        reads=("core.to_joint",),
    ),
    Question(
        "curb.joint_spacing",
        "Joint to joint, where they are evenly spaced.",
        '"10 ft"',
        "no other joints are drawn",
    ),
    Question("curb.condition", "How sound the concrete is, by eye and hammer.", '"sound"'),
    Question(
        "curb.bars_looked_for",
        "Whether bars or cables in it were looked for with a scanner.",
        '"yes"',
        reads=("core.bars",),
    ),
)

_GUTTER = (
    Question("gutter", "The gutter at the outlet."),
    Question(
        "gutter.kind",
        "Whether its pan catches water (falls to the curb), spills it (falls from the curb), or "
        "there is none.",
        '"catch"',
    ),
    Question(
        "gutter.flow_line",
        "Level of the flow line right at the outlet, the rod on the lowest line of the gutter.",
        '"99.50 ft"',
        others=at(NOTCHES, '"99.667 ft"'),
    ),
    Question("gutter.pan_width", "From the curb face to the edge of the pavement.", '"18 in"'),
    Question("gutter.pan_slope", "Fall across the pan, with a small level.", '"1/2 in/ft"'),
    Question(
        "gutter.overlay_lip",
        "How high later paving stands over the pan's edge.",
        '"1/2 in"',
        "no lip",
        aside=EVERY,
    ),
    Question(
        "gutter.depth_running",
        "How deep it runs in a storm: a water mark on the curb, the town, the neighbors.",
        '"3 in"',
        others=at(NOTCHES, '"2 in"'),
        reads=("gutter.depth",),
    ),
    Question(
        "gutter.flow",
        "What already runs along it in the design storm, where somebody worked that out; the "
        "street's grade is then needed.",
        '"0.4 cfs"',
        "not known; spread and depth are not computed",
        aside=EVERY,
        reads=("gutter.spread",),
    ),
    Question(
        "gutter.cross_slope",
        "Fall across the pavement beyond the pan.",
        '"2 %"',
    ),
)

_STREET = (
    Question("street", "The street in front."),
    Question("street.name", "Its name, as on the sign.", '"Tern Lane"', reads=("street",)),
    Question(
        "street.street_class",
        "Its class, by the town's list or the traffic.",
        '"local"',
        reads=("street_class",),
    ),
    Question(
        "street.authority",
        "Whose it is: the town, or the name of who else holds it, as the town's sheet has it.",
        '"town"',
        reads=("authority",),
    ),
    Question(
        "street.between",
        "The cross streets at the two ends of the block.",
        '["Heron Street", "Mill Lane"]',
        "not known; a rule for a part of the street becomes a question",
    ),
    Question("street.speed", "The posted speed.", '"25 mph"', reads=("speed", "traffic.taper")),
    Question("street.width", "Curb face to curb face.", '"36 ft"'),
    Question("street.lanes", "Lanes for traffic, both ways together.", "2", reads=("lanes",)),
    Question("street.parking", "Where cars may park.", '"both sides"'),
    Question(
        "street.parking_width",
        "The width of a parking lane; paced, or by its line.",
        '"8 ft"',
        "no width is set off for parking",
        reads=("traffic.lane",),
    ),
    Question(
        "street.last_paved",
        "The day it was last paved, from the town's list.",
        "2015-06-01",
        "not known; a rule that turns on it becomes a question",
        reads=("street_paved", "dates.pavement_age"),
    ),
    Question(
        "street.pavement_surface",
        "What it is paved with.",
        '"asphalt"',
        "not known; a rule that turns on it becomes a question",
        reads=("pavement_surface",),
    ),
    Question(
        "street.pavement_rating",
        "The rating of the pavement in the town's own list, 0 to 100.",
        "85",
        "not known; a rule that turns on it becomes a question",
        reads=("pavement_rating",),
    ),
    Question(
        "street.grade",
        "Fall along the gutter: two shots on the flow line 50 ft apart.",
        '"0.6 %"',
        "not known; where water would run is not told",
        reads=("gutter.slope",),
    ),
    Question(
        "street.gutter_flows",
        "Which way its water runs, as you look from the street to the house.",
        '"right"',
        "not known; what lies downstream is not told",
    ),
)

_THERE = (
    Question(
        "feature",
        "Each lasting thing along the curb within some 25 ft of the outlet: drives, ramps, "
        "inlets, hydrants, poles, trees, crosswalks, stops, boxes.",
        left_out="nothing is there",
        reads=(
            "tree_near",
            "outlet.to_drive",
            "outlet.to_ramp",
            "outlet.to_inlet",
            "outlet.to_tree",
            "restore.tree",
        ),
    ),
    Question("feature.kind", "What it is.", '"drive"'),
    Question("feature.name", "What the sketch should call it.", '"drive"', "its kind"),
    Question(
        "feature.near",
        "Station of its left edge at the curb face, from the left side line: of a drive or a ramp "
        "the outer end of its flare; of a pole or a tree its middle.",
        '"21 ft 2 in"',
    ),
    Question(
        "feature.far",
        "Station of its right edge, likewise.",
        '"37 ft 2 in"',
        "it is a point",
    ),
    Question(
        "feature.flare",
        "The width of each flare along the curb.",
        '"3 ft"',
        "it has no flares",
    ),
    Question("feature.owner", "Whose it is.", '"lot"'),
    Row(
        "feature",
        "A tree, with what is asked of trees.",
        {"kind": '"tree"', "name": '"town tree"', "near": '"34 ft"'},
    ),
    Question(
        "feature.offset",
        "From the curb face to its middle.",
        '"3 ft"',
        "drawn where its kind stands",
    ),
    Question("feature.trunk", "The trunk through its middle, breast high.", '"9 in"', "not known"),
    Question(
        "feature.drip_line",
        "How far its branches reach from the trunk.",
        '"8 ft"',
        "whether the run goes under it is not told",
    ),
    Question("feature.species", "What tree it is.", '"hornbeam"', "not known"),
    Question(
        "existing",
        "Each hole or notch already in this frontage's curb.",
        left_out="there is none",
        needed_for=_REUSED,
        reads=("existing_in_use", "outlet.count", "outlet.plug_old"),
    ),
    Question(
        "existing.station",
        "Its middle, from the left side line.",
        '"50 ft"',
        others=at(_REUSED, '"12 ft"'),
    ),
    Question("existing.size", "Its diameter.", '"3 in"', others=at(_REUSED, '"4 in"')),
    Question(
        "existing.plan",
        "What becomes of it: kept as it is, used for this run, or plugged.",
        '"plug"',
        others=at(_REUSED, '"reuse"'),
    ),
    Question(
        "existing.in_use",
        "Whether water comes out of it now.",
        "false",
        others=at(_REUSED, "true"),
    ),
)

_UNDER = (
    Question(
        "utility",
        "Each buried line the run crosses or nears, by its paint on the ground.",
        left_out="none is known",
        reads=("utility.tolerance",),
    ),
    Question("utility.kind", "Whose paint it is.", '"gas"'),
    Question(
        "utility.at",
        "Along the run from the curb face (of a rolled curb: from the flow line) to where it "
        "crosses.",
        '"7 ft"',
    ),
    Question(
        "utility.depth",
        "How deep, where the owner or a test hole tells.",
        '"36 in"',
        "not known: dig by hand",
    ),
    Question("utility.marked", "Whether its paint is there yet.", '"yes"'),
    Question("utility.along", "Whether it runs along the street, or beside the run.", '"street"'),
    Question("utility.note", "What else the locator said.", '"service to the lot"', "no note"),
    Question("locate", "The one-call ticket for these marks."),
    Question("locate.ticket", "Its number.", '"26-110417"', "to be called; nobody digs without it"),
    Question(
        "locate.called",
        "The day it was called in.",
        "2026-04-21",
        "not yet called",
        reads=("dates.locate_wait", "dates.locate_life"),
    ),
    Question(
        "locate.called_at",
        "The hour of the call, on a clock of 24 hours.",
        '"09:15"',
        "not known; where the law counts from an hour it becomes a question",
    ),
)

PARTS = (
    Part("walk and verge", (*_WALK, *_VERGE)),
    Part("curb and gutter", (*_CURB, *_GUTTER)),
    Part("the street, and what stands along it", (*_STREET, *_THERE)),
    Part("what lies in the ground", _UNDER),
)
