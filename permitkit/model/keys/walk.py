"""Rule keys of the walk, of access, of traffic and of restoration."""

from __future__ import annotations

from permitkit.model.rules import Clock, RuleKey, Stacks, Stage, ValueKind
from permitkit.model.vocabulary.trade import CROSSINGS
from permitkit.model.words import STATED
from permitkit.units import Kind

__all__ = ["KEYS"]

WALK_REMOVAL = RuleKey(
    "walk.removal",
    ValueKind.WORDS,
    "How far must walk be taken out?",
    words=("whole panels", "part panel"),
    blocking=True,
)
WALK_PIECE_LEFT = RuleKey(
    "walk.piece_left",
    ValueKind.LIMIT,
    "How long must the piece left to the joint be, else the cut goes to the joint?",
    quantity=Kind.LENGTH,
    plain=True,
)
WALK_THICKNESS = RuleKey(
    "walk.thickness",
    ValueKind.LIMIT,
    "How thick must new walk be?",
    quantity=Kind.LENGTH,
    blocking=True,
)
WALK_BASE = RuleKey(
    "walk.base",
    ValueKind.LIMIT,
    "How deep must the base under the walk be?",
    quantity=Kind.LENGTH,
)
WALK_STRENGTH = RuleKey(
    "walk.strength",
    ValueKind.LIMIT,
    "How strong must the concrete be?",
    quantity=Kind.STRENGTH,
)
WALK_STRENGTH_AGE = RuleKey(
    "walk.strength_age",
    ValueKind.SPAN,
    "At what age is that strength measured?",
    plain=True,
)
WALK_PIPE_IN_SLAB = RuleKey(
    "walk.pipe_in_slab",
    ValueKind.STANCE,
    "May the pipe stand up into the walk slab?",
    words=("allowed", "barred"),
)
WALK_OVER_PIPE = RuleKey(
    "walk.over_pipe",
    ValueKind.LIMIT,
    "How much concrete must lie over a pipe in the slab?",
    quantity=Kind.LENGTH,
    of=("pipe outside",),
    origin=("walk surface",),
)
WALK_CROSSING = RuleKey(
    "walk.crossing",
    ValueKind.WORDS,
    "How may the pipe cross the walk?",
    words=tuple(CROSSINGS),
    trade=CROSSINGS,
    own_words=True,
)
WALK_SAW_DEPTH = RuleKey(
    "walk.saw_depth",
    ValueKind.LIMIT,
    "How deep must the saw cut be?",
    quantity=Kind.LENGTH,
    plain=True,
)
ACCESS_CROSS_SLOPE = RuleKey(
    "access.cross_slope",
    ValueKind.LIMIT,
    "How steep may the walk fall across?",
    quantity=Kind.SLOPE,
    stacks=Stacks.STRICTEST,
    clock=Clock.WORK,
    ends="at_most",
)
ACCESS_RUNNING_SLOPE = RuleKey(
    "access.running_slope",
    ValueKind.LIMIT,
    "How steep may the walk run?",
    quantity=Kind.SLOPE,
    stacks=Stacks.STRICTEST,
    clock=Clock.WORK,
    ends="at_most",
)
ACCESS_LIP = RuleKey(
    "access.lip",
    ValueKind.LIMIT,
    "How high may a step at a joint be, plain and beveled?",
    quantity=Kind.LENGTH,
    stacks=Stacks.STRICTEST,
    clock=Clock.WORK,
    ends="at_most",
)
ACCESS_OPENING = RuleKey(
    "access.opening",
    ValueKind.LIMIT,
    "How wide may a gap or grate opening on a way for people on foot be?",
    quantity=Kind.LENGTH,
    stacks=Stacks.STRICTEST,
    clock=Clock.WORK,
    ends="at_most",
)
ACCESS_WIDTH = RuleKey(
    "access.width",
    ValueKind.LIMIT,
    "How wide must a temporary way for people on foot be?",
    quantity=Kind.LENGTH,
    stacks=Stacks.STRICTEST,
    clock=Clock.WORK,
    ends="at_least",
)
ACCESS_WAY_ROUND = RuleKey(
    "access.way_round",
    ValueKind.YES_NO,
    "Must a closed walk have a way round that a cane can follow?",
    clock=Clock.WORK,
)
ACCESS_RAMP_CUT = RuleKey(
    "access.ramp_cut",
    ValueKind.STANCE,
    "May the cut touch a curb ramp or its landing?",
    words=("allowed", "barred"),
    clock=Clock.WORK,
)
TRAFFIC_LANE = RuleKey(
    "traffic.lane",
    ValueKind.LIMIT,
    "How wide must a lane left open be?",
    quantity=Kind.LENGTH,
    stacks=Stacks.STRICTEST,
    clock=Clock.WORK,
    ends="at_least",
)
TRAFFIC_TAPER = RuleKey(
    "traffic.taper",
    ValueKind.LIMIT,
    "What share of the merging taper must this taper have?",
    quantity=Kind.RATIO,
    clock=Clock.WORK,
    ends="at_least",
)
TRAFFIC_LAYOUTS = RuleKey(
    "traffic.layouts",
    ValueKind.WORDS,
    "Which traffic layouts suit what is closed here?",
    clock=Clock.WORK,
    stage=Stage.SIZE,
)
TRAFFIC_HOURS = RuleKey(
    "traffic.hours",
    ValueKind.HOURS,
    "At what hours and on what days may work go on in the street?",
    clock=Clock.WORK,
    plain=True,
)
TRAFFIC_TELL = RuleKey(
    "traffic.tell_neighbours",
    ValueKind.YES_NO,
    "Must neighbors be told before a drive or a bus stop is blocked?",
    clock=Clock.WORK,
    plain=True,
    stage=Stage.SIZE,
)
RESTORE_MATCH = RuleKey(
    "restore.match",
    ValueKind.YES_NO,
    "Must finish, score pattern and material match what was taken out?",
    plain=True,
    stage=Stage.SIZE,
)
RESTORE_STATE = RuleKey(
    "restore.state",
    ValueKind.ITEMS,
    "Which parts of the restoration must the application state?",
    words=STATED,
    stacks=Stacks.ALL,
    plain=True,
)
RESTORE_CURB_PIECE = RuleKey(
    "restore.curb_piece",
    ValueKind.LIMIT,
    "How long must a replaced piece of curb be, with or without dowels?",
    quantity=Kind.LENGTH,
    plain=True,
)
RESTORE_GROUT = RuleKey(
    "restore.grout",
    ValueKind.WORDS,
    "Which grout may fill the gap?",
)
RESTORE_LIFT = RuleKey(
    "restore.lift",
    ValueKind.LIMIT,
    "How thick may a lift of backfill be?",
    quantity=Kind.LENGTH,
    plain=True,
    stage=Stage.SIZE,
)
RESTORE_DENSITY = RuleKey(
    "restore.density",
    ValueKind.LIMIT,
    "How dense must backfill be?",
    quantity=Kind.RATIO,
    plain=True,
    stage=Stage.SIZE,
)
RESTORE_TO_FEET = RuleKey(
    "restore.to_feet",
    ValueKind.SPAN,
    "How long must new concrete cure before people walk on it?",
    plain=True,
)
RESTORE_TO_WHEELS = RuleKey(
    "restore.to_wheels",
    ValueKind.SPAN,
    "How long must new concrete cure before wheels cross it?",
    plain=True,
)
RESTORE_TREE = RuleKey(
    "restore.tree",
    ValueKind.YES_NO,
    "Must the forester agree before roots are cut within the drip line?",
    plain=True,
)
SKETCH_NEEDED = RuleKey(
    "packet.sketch",
    ValueKind.YES_NO,
    "Must the application have a sketch?",
    stage=Stage.SIZE,
    plain=True,
)

KEYS: tuple[RuleKey, ...] = (
    WALK_REMOVAL,
    WALK_PIECE_LEFT,
    WALK_THICKNESS,
    WALK_BASE,
    WALK_STRENGTH,
    WALK_STRENGTH_AGE,
    WALK_PIPE_IN_SLAB,
    WALK_OVER_PIPE,
    WALK_CROSSING,
    WALK_SAW_DEPTH,
    ACCESS_CROSS_SLOPE,
    ACCESS_RUNNING_SLOPE,
    ACCESS_LIP,
    ACCESS_OPENING,
    ACCESS_WIDTH,
    ACCESS_WAY_ROUND,
    ACCESS_RAMP_CUT,
    TRAFFIC_LANE,
    TRAFFIC_TAPER,
    TRAFFIC_LAYOUTS,
    TRAFFIC_HOURS,
    TRAFFIC_TELL,
    RESTORE_MATCH,
    RESTORE_STATE,
    RESTORE_CURB_PIECE,
    RESTORE_GROUT,
    RESTORE_LIFT,
    RESTORE_DENSITY,
    RESTORE_TO_FEET,
    RESTORE_TO_WHEELS,
    RESTORE_TREE,
    SKETCH_NEEDED,
)
