"""Rule keys of finer workmanship: where an outlet stands, pipe and fittings, the concrete."""

from __future__ import annotations

from permitkit.model.rules import RuleKey, Stacks, Stage, ValueKind
from permitkit.units import Kind

__all__ = ["KEYS"]

OUTLET_RENEWAL = RuleKey(
    "outlet.renewal",
    ValueKind.STANCE,
    "May a curb pipe that is there be renewed in kind?",
    words=("allowed", "barred"),
    plain=True,
)
OUTLET_POSITION = RuleKey(
    "outlet.position",
    ValueKind.SENTENCES,
    "Where must the outlet stand, in words (low side of the lot, midway between wall and line)?",
    plain=True,
)
OUTLET_HEIGHT = RuleKey(
    "outlet.height",
    ValueKind.LIMIT,
    "How high above the pavement may water be let go?",
    quantity=Kind.LENGTH,
    of=("outlet",),
    origin=("pavement",),
    plain=True,
)
OUTLET_BESIDE_DRIVE = RuleKey(
    "outlet.beside_drive",
    ValueKind.YES_NO,
    "Must there be a hole at each side of every driveway apron?",
    plain=True,
)
OUTLET_MARK = RuleKey(
    "outlet.mark",
    ValueKind.SENTENCES,
    "How must the curb be marked where the pipe passes?",
    plain=True,
)
CORE_CURB_EXPOSURE = RuleKey(
    "core.curb_exposure",
    ValueKind.LIMIT,
    "How high must the curb stand above the gutter?",
    quantity=Kind.LENGTH,
    plain=True,
)
CORE_PATCH = RuleKey(
    "core.patch",
    ValueKind.WORDS,
    "How must the curb be made good round the pipe?",
    plain=True,
)
CORE_EARTH_UNDER = RuleKey(
    "core.earth_under",
    ValueKind.LIMIT,
    "How much earth must stay under a curb that is tunnelled?",
    quantity=Kind.LENGTH,
    plain=True,
)
EMITTER_TO_CURB = RuleKey(
    "emitter.to_curb",
    ValueKind.LIMIT,
    "How far from the curb must an emitter stand?",
    quantity=Kind.LENGTH,
    of=("emitter",),
    origin=("curb",),
    plain=True,
)
PIPE_SIZE = RuleKey(
    "pipe.size",
    ValueKind.LIMIT,
    "How wide must the pipe be?",
    quantity=Kind.LENGTH,
    plain=True,
)
PIPE_ROOF = RuleKey(
    "pipe.roof_per_square_inch",
    ValueKind.LIMIT,
    "How much roof may one square inch of leader drain?",
    quantity=Kind.AREA,
    plain=True,
    ends="at_most",
)
PIPE_FITTINGS = RuleKey(
    "pipe.fittings",
    ValueKind.ITEMS,
    "Which fittings must the line have (reducer, anti-seep joint, check valve)?",
    stacks=Stacks.ALL,
    plain=True,
)
PIPE_EXTENT = RuleKey(
    "pipe.extent",
    ValueKind.SENTENCES,
    "From where to where must the pipe run?",
    plain=True,
)
WALK_WIDTH = RuleKey(
    "walk.width",
    ValueKind.LIMIT,
    "How wide must a walk be?",
    quantity=Kind.LENGTH,
    plain=True,
)
WALK_AS_REMOVED = RuleKey(
    "walk.as_removed",
    ValueKind.YES_NO,
    "Must new walk be at least as thick as what was taken out?",
    plain=True,
)
WALK_REMOVAL_WIDTH = RuleKey(
    "walk.removal_width",
    ValueKind.WORDS,
    "How much of the walk's width must be taken out?",
    words=("the cut", "to the score line", "the full width"),
    plain=True,
)
WALK_OVERRUN = RuleKey(
    "walk.overrun",
    ValueKind.LIMIT,
    "By how much may an opening grow over what was permitted?",
    quantity=Kind.RATIO,
    plain=True,
)
WALK_STRENGTH_EARLY = RuleKey(
    "walk.strength_early",
    ValueKind.LIMIT,
    "How strong must the concrete be at its early age?",
    quantity=Kind.STRENGTH,
    plain=True,
)
WALK_STRENGTH_EARLY_AGE = RuleKey(
    "walk.strength_early_age",
    ValueKind.SPAN,
    "What is that early age?",
    plain=True,
)
WALK_SLUMP = RuleKey(
    "walk.slump",
    ValueKind.LIMIT,
    "How much slump may the concrete have?",
    quantity=Kind.LENGTH,
    plain=True,
)
WALK_AIR = RuleKey(
    "walk.air",
    ValueKind.LIMIT,
    "How much air must the concrete hold?",
    quantity=Kind.RATIO,
    plain=True,
)
WALK_TEMPERATURE = RuleKey(
    "walk.temperature",
    ValueKind.LIMIT,
    "How warm must it be, day and night, to place concrete?",
    quantity=Kind.TEMPERATURE,
    plain=True,
)
WALK_JOINTS = RuleKey(
    "walk.joint_spacing",
    ValueKind.LIMIT,
    "How far apart may joints in the walk be?",
    quantity=Kind.LENGTH,
    plain=True,
)
RESTORE_ASPHALT = RuleKey(
    "restore.asphalt_strip",
    ValueKind.LIMIT,
    "How wide a strip of asphalt beside the gutter must be renewed?",
    quantity=Kind.LENGTH,
    plain=True,
    stage=Stage.SIZE,
)
RESTORE_PAVEMENT = RuleKey(
    "restore.pavement_extra",
    ValueKind.LIMIT,
    "How much thicker than what was there must a pavement patch be?",
    quantity=Kind.LENGTH,
    plain=True,
    stage=Stage.SIZE,
)
RESTORE_METHOD = RuleKey(
    "restore.method",
    ValueKind.SENTENCES,
    "How must verge, walk, curb and pavement be put back?",
    stacks=Stacks.ALL,
    plain=True,
    stage=Stage.SIZE,
)
GUTTER_SLOPE = RuleKey(
    "gutter.slope",
    ValueKind.LIMIT,
    "How steep must the gutter run?",
    quantity=Kind.SLOPE,
    plain=True,
)
WALK_SAW_CUT = RuleKey(
    "walk.saw_cut",
    ValueKind.YES_NO,
    "Must edges be saw cut before breaking out?",
    plain=True,
    stage=Stage.SIZE,
)
WALK_GROOVE = RuleKey(
    "walk.groove",
    ValueKind.LIMIT,
    "How deep must grooves and score marks in the walk be?",
    quantity=Kind.LENGTH,
    plain=True,
)
RESTORE_VERGE_SLOPE = RuleKey(
    "restore.verge_slope",
    ValueKind.LIMIT,
    "How steep may the verge fall from walk to curb?",
    quantity=Kind.SLOPE,
    plain=True,
)
RESTORE_ROAD_BASE = RuleKey(
    "restore.road_base",
    ValueKind.LIMIT,
    "How deep must the base under a pavement patch be?",
    quantity=Kind.LENGTH,
    plain=True,
    stage=Stage.SIZE,
)
RESTORE_OVERLAY = RuleKey(
    "restore.overlay_from",
    ValueKind.LIMIT,
    "Up to what share of the pavement opened is no overlay of the whole asked for?",
    quantity=Kind.RATIO,
    plain=True,
    stage=Stage.SIZE,
)
RESTORE_CUTBACK = RuleKey(
    "restore.cutback",
    ValueKind.LIMIT,
    "How far beyond the trench must pavement be cut back on each side before it is patched?",
    quantity=Kind.LENGTH,
    plain=True,
    stage=Stage.SIZE,
)
RESTORE_ASPHALT_DEPTH = RuleKey(
    "restore.asphalt_depth",
    ValueKind.LIMIT,
    "How thick must the asphalt of a pavement patch be?",
    quantity=Kind.LENGTH,
    plain=True,
    stage=Stage.SIZE,
)
WALK_EXPANSION = RuleKey(
    "walk.expansion_joints",
    ValueKind.LIMIT,
    "How far apart may expansion joints in the walk be?",
    quantity=Kind.LENGTH,
    plain=True,
)
WALK_ABOVE_CURB = RuleKey(
    "walk.above_curb",
    ValueKind.LIMIT,
    "How high must the walk stand above the top of the curb?",
    quantity=Kind.LENGTH,
    plain=True,
)

KEYS: tuple[RuleKey, ...] = (
    OUTLET_RENEWAL,
    OUTLET_POSITION,
    OUTLET_HEIGHT,
    OUTLET_BESIDE_DRIVE,
    OUTLET_MARK,
    CORE_CURB_EXPOSURE,
    CORE_PATCH,
    CORE_EARTH_UNDER,
    EMITTER_TO_CURB,
    PIPE_SIZE,
    PIPE_ROOF,
    PIPE_FITTINGS,
    PIPE_EXTENT,
    WALK_WIDTH,
    WALK_AS_REMOVED,
    WALK_REMOVAL_WIDTH,
    WALK_OVERRUN,
    WALK_STRENGTH_EARLY,
    WALK_STRENGTH_EARLY_AGE,
    WALK_SLUMP,
    WALK_AIR,
    WALK_TEMPERATURE,
    WALK_JOINTS,
    RESTORE_ASPHALT,
    RESTORE_PAVEMENT,
    RESTORE_METHOD,
    GUTTER_SLOPE,
    WALK_SAW_CUT,
    WALK_GROOVE,
    RESTORE_VERGE_SLOPE,
    RESTORE_ROAD_BASE,
    RESTORE_OVERLAY,
    RESTORE_CUTBACK,
    RESTORE_ASPHALT_DEPTH,
    WALK_EXPANSION,
    WALK_ABOVE_CURB,
)
