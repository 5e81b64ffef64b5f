"""Rule keys of the outlet, the curb and the emitter."""

from __future__ import annotations

from permitkit.model.rules import RuleKey, Stacks, ValueKind
from permitkit.model.vocabulary.outlets import WAYS
from permitkit.model.vocabulary.trade import CURBS
from permitkit.units import Kind

__all__ = ["KEYS"]

OUTLET_ALLOWED = RuleKey(
    "outlet.allowed",
    ValueKind.STANCE,
    "May water be let go this way (core, notch, emitter, …) for this kind of water and curb?",
    words=("allowed", "required", "barred", "exempt"),
    blocking=True,
)
OUTLET_ORDER = RuleKey(
    "outlet.order",
    ValueKind.ORDER,
    "In what order must the ways of letting water go be tried?",
    words=tuple(WAYS),
    plain=True,
    own_words=True,
)
OUTLET_COUNT = RuleKey(
    "outlet.count",
    ValueKind.LIMIT,
    "How many holes or notches may (or must) one frontage have?",
)
OUTLET_TO_LINE = RuleKey(
    "outlet.to_line",
    ValueKind.LIMIT,
    "How far must the outlet stay from the side property line extended?",
    quantity=Kind.LENGTH,
    of=("hole edge", "hole centre"),
    origin=("side line extended",),
)
OUTLET_TO_DRIVE = RuleKey(
    "outlet.to_drive",
    ValueKind.LIMIT,
    "How far must the outlet stay from a driveway flare or apron?",
    quantity=Kind.LENGTH,
    of=("hole edge", "hole centre"),
    origin=("flare", "apron"),
)
OUTLET_TO_RAMP = RuleKey(
    "outlet.to_ramp",
    ValueKind.LIMIT,
    "How far must the outlet stay from a curb ramp?",
    quantity=Kind.LENGTH,
    of=("hole edge", "hole centre"),
    origin=("ramp flare",),
)
OUTLET_TO_INLET = RuleKey(
    "outlet.to_inlet",
    ValueKind.LIMIT,
    "How near to, or far from, a street inlet must the outlet be?",
    quantity=Kind.LENGTH,
    of=("hole edge", "hole centre"),
    origin=("inlet",),
    plain=True,
)
OUTLET_TO_TREE = RuleKey(
    "outlet.to_tree",
    ValueKind.LIMIT,
    "How far must the outlet and its trench stay from a town tree?",
    quantity=Kind.LENGTH,
    of=("hole edge", "hole centre"),
    origin=("trunk",),
)
OUTLET_PLUG_OLD = RuleKey(
    "outlet.plug_old",
    ValueKind.YES_NO,
    "Must an old hole that goes out of use be plugged?",
    plain=True,
)
CORE_CURBS = RuleKey(
    "core.curbs",
    ValueKind.WORDS,
    "Which curb shapes may be cored?",
    words=tuple(CURBS),
    trade=CURBS,
    own_words=True,
    blocking=True,
)
CORE_BIT = RuleKey(
    "core.bit",
    ValueKind.LIMIT,
    "How wide may the hole be?",
    quantity=Kind.LENGTH,
    blocking=True,
)
CORE_HEIGHT = RuleKey(
    "core.height",
    ValueKind.LIMIT,
    "How high must the hole or its pipe stand, and above what?",
    quantity=Kind.LENGTH,
    of=("hole bottom", "invert", "hole centre", "hole top", "pipe outside"),
    origin=("flow line", "pavement", "curb top"),
)
CORE_STRIP = RuleKey(
    "core.strip",
    ValueKind.LIMIT,
    "How much concrete must stay between the hole or pipe and the curb top?",
    quantity=Kind.LENGTH,
    of=("hole top", "pipe outside"),
    origin=("curb top",),
    stacks=Stacks.STRICTEST,
)
CORE_GAP = RuleKey(
    "core.gap",
    ValueKind.LIMIT,
    "How wide must the grout gap round the pipe be?",
    quantity=Kind.LENGTH,
    of=("pipe outside",),
    origin=("hole",),
)
CORE_TO_JOINT = RuleKey(
    "core.to_joint",
    ValueKind.LIMIT,
    "How far must the hole stay from a curb joint?",
    quantity=Kind.LENGTH,
    of=("hole edge", "hole centre"),
    origin=("joint",),
)
CORE_APART = RuleKey(
    "core.apart",
    ValueKind.LIMIT,
    "How much clear curb must stand between two holes?",
    quantity=Kind.LENGTH,
    of=("hole edge",),
    origin=("hole edge",),
    plain=True,
)
CORE_BARS = RuleKey(
    "core.bars",
    ValueKind.YES_NO,
    "Must the curb be scanned for bars before drilling?",
    plain=True,
)
NOTCH_CURBS = RuleKey(
    "notch.curbs",
    ValueKind.WORDS,
    "Which curb shapes may be notched?",
    words=tuple(CURBS),
    trade=CURBS,
    own_words=True,
    blocking=True,
)
NOTCH_WIDTH = RuleKey(
    "notch.width",
    ValueKind.LIMIT,
    "How wide may a notch be?",
    quantity=Kind.LENGTH,
    blocking=True,
)
NOTCH_FLOOR = RuleKey(
    "notch.floor",
    ValueKind.LIMIT,
    "How high must the notch floor stand at the toe, above the flow line?",
    quantity=Kind.LENGTH,
    of=("floor at toe",),
    origin=("flow line",),
)
NOTCH_SLOPE = RuleKey(
    "notch.slope",
    ValueKind.LIMIT,
    "How steep must the notch floor be?",
    quantity=Kind.SLOPE,
)
NOTCH_AT_DRIVE = RuleKey(
    "notch.at_drive",
    ValueKind.STANCE,
    "May a notch stand where wheels cross the roll?",
    words=("allowed", "barred"),
)
EMITTER_TO_ROW = RuleKey(
    "emitter.to_row",
    ValueKind.LIMIT,
    "How far behind the right-of-way line must an emitter stand?",
    quantity=Kind.LENGTH,
    of=("emitter",),
    origin=("right-of-way line",),
)
EMITTER_TO_LINE = RuleKey(
    "emitter.to_line",
    ValueKind.LIMIT,
    "How far from a side line must an emitter stand?",
    quantity=Kind.LENGTH,
    of=("emitter",),
    origin=("side line",),
)
EMITTER_TO_WALK = RuleKey(
    "emitter.to_walk",
    ValueKind.LIMIT,
    "How far from a public walk must an emitter stand?",
    quantity=Kind.LENGTH,
    of=("emitter",),
    origin=("walk",),
)
EMITTER_TO_HOUSE = RuleKey(
    "emitter.to_house",
    ValueKind.LIMIT,
    "How far from the house must an emitter stand (least, and greatest where there is one)?",
    quantity=Kind.LENGTH,
    of=("emitter",),
    origin=("building",),
)
EMITTER_WEEP = RuleKey(
    "emitter.weep",
    ValueKind.YES_NO,
    "Must an emitter have a weep hole and a pit that holds what the line holds?",
    plain=True,
)
EMITTER_OVER_WALK = RuleKey(
    "emitter.over_walk",
    ValueKind.STANCE,
    "May water let go in the yard flow over the public walk?",
    words=("allowed", "barred"),
)

KEYS: tuple[RuleKey, ...] = (
    OUTLET_ALLOWED,
    OUTLET_ORDER,
    OUTLET_COUNT,
    OUTLET_TO_LINE,
    OUTLET_TO_DRIVE,
    OUTLET_TO_RAMP,
    OUTLET_TO_INLET,
    OUTLET_TO_TREE,
    OUTLET_PLUG_OLD,
    CORE_CURBS,
    CORE_BIT,
    CORE_HEIGHT,
    CORE_STRIP,
    CORE_GAP,
    CORE_TO_JOINT,
    CORE_APART,
    CORE_BARS,
    NOTCH_CURBS,
    NOTCH_WIDTH,
    NOTCH_FLOOR,
    NOTCH_SLOPE,
    NOTCH_AT_DRIVE,
    EMITTER_TO_ROW,
    EMITTER_TO_LINE,
    EMITTER_TO_WALK,
    EMITTER_TO_HOUSE,
    EMITTER_WEEP,
    EMITTER_OVER_WALK,
)
