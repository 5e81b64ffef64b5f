"""Every value that may be written into a town's form: its plain name, and what it tells."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from permitkit.model.site import Street
from permitkit.model.words import (
    Applicant,
    Crossing,
    CurbShape,
    InflowKind,
    OutletKind,
    StreetClass,
    choices,
)
from permitkit.model.work import Traffic
from permitkit.units import Kind

if TYPE_CHECKING:
    from permitkit.model.frozen import Frozen

__all__ = ["FORM_VALUES", "ValueSort", "ValueTold"]


class ValueSort(StrEnum):
    """What sort of value it is, which says how it may be written and whether it can tick a box."""

    TEXT = "text"
    WORDS = "words"
    NUMBER = "number"
    QUANTITY = "quantity"
    MONEY = "money"
    DAY = "day"


@dataclass(frozen=True, slots=True)
class ValueTold:
    """One value: its name, what it tells, its sort, its quantity, the words it may be."""

    name: str
    tells: str
    sort: ValueSort = ValueSort.TEXT
    quantity: Kind | None = None
    words: tuple[str, ...] = ()


def _text(name: str, tells: str) -> ValueTold:
    return ValueTold(name, tells)


def _words(name: str, tells: str, words: tuple[str, ...]) -> ValueTold:
    return ValueTold(name, tells, ValueSort.WORDS, words=words)


def _yes(name: str, tells: str) -> ValueTold:
    return _words(name, tells, ("yes", "no"))


def _length(name: str, tells: str, kind: Kind = Kind.LENGTH) -> ValueTold:
    return ValueTold(name, tells, ValueSort.QUANTITY, kind)


def _number(name: str, tells: str) -> ValueTold:
    return ValueTold(name, tells, ValueSort.NUMBER)


def _money(name: str, tells: str) -> ValueTold:
    return ValueTold(name, tells, ValueSort.MONEY)


def _day(name: str, tells: str) -> ValueTold:
    return ValueTold(name, tells, ValueSort.DAY)


def _literal(model: type[Frozen], name: str) -> tuple[str, ...]:
    return choices(model.model_fields[name].annotation)


_PEOPLE = (
    _words("applicant", "who applies", choices(Applicant)),
    _text("applicant name", "the firm, or the owner where the owner applies"),
    _text("applicant address", "the firm's address; an owner's is not kept"),
    _text("applicant phone", "the firm's telephone, or the owner's"),
    _text("firm name", "the firm"),
    _text("firm address", "its address"),
    _text("firm phone", "its telephone"),
    _text("firm night phone", "its telephone by day and night"),
    _text("firm email", "its mail address"),
    _text("signer", "who signs for the firm, to be printed beside the signature"),
    _text("signer title", "what that person is in the firm"),
    _text("licence number", "the firm's license for this town, or its licenses"),
    _text("licence kind", "what they are licenses for"),
    _day("licence until", "the first day on which one of them ends"),
    _text("insurance company", "who insures the firm against liability, for this town"),
    _text("insurance policy", "that policy's number"),
    _money("insurance limit", "its limit for each accident"),
    _day("insurance until", "its last day"),
    _text("workers compensation policy", "that policy's company and number"),
    _text("bond company", "who stands surety for the firm, for this town"),
    _text("bond number", "that bond's number"),
    _text("owner name", "the owner of the lot"),
    _text("owner phone", "the owner's telephone"),
    _yes("owner consent", "whether the owner has agreed"),
)
_PLACE = (
    _text("site address", "the place of work"),
    _text("parcel", "the parcel's number"),
    _length("frontage", "the lot's length along the street"),
    _text("street", "the street's name"),
    _words("street class", "its class", choices(StreetClass)),
    _text("street authority", "whose street it is"),
    _length("street width", "its width, curb to curb"),
    _length("speed", "the posted speed", Kind.SPEED),
    _words("parking", "where cars may park", _literal(Street, "parking")),
    _text("cross street", "the nearest cross street"),
    _length("cross street distance", "how far away that is"),
    _text("town", "the town"),
    _text("locate ticket", "the number of the utility-locate ticket"),
    _day("locate called", "the day the locate was called for"),
)
_WORK = (
    _words("permits", "the permits that are needed, by their titles; ticked by their ids", ()),
    _text("kind of work", "the outlet in a phrase"),
    _text("declaration", "what the town wants declared on the kind of water"),
    _text("description of work", "outlet, pipe, walk and old holes in a sentence"),
    _words("outlet", "how the water is let go", choices(OutletKind)),
    _words("curb shape", "the curb's shape", choices(CurbShape)),
    _number("curb openings", "how many holes or notches are made in the curb"),
    _length("hole size", "the diameter of the hole in the curb"),
    _length("hole bottom", "the lowest point of the hole above the gutter's flow line"),
    _length("pipe invert", "the inside bottom of the pipe above the gutter's flow line"),
    _length("concrete above hole", "what is left of the curb above the hole"),
    _length("curb height", "the height of the curb's face"),
    _length("notch width", "the width of the notch"),
    _length("side line distance", "from the outlet's edge to the side line"),
    _text("pipe", "the pipe, by size and kind"),
    _length("pipe length", "how long the whole run is"),
    _length("pipe slope", "the flattest slope of the run", Kind.SLOPE),
    _length("design flow", "the flow at the outlet in the design rain", Kind.FLOW),
    _words("water", "the kinds of water let go", choices(InflowKind)),
    _number("holes plugged", "how many old holes in the curb are plugged"),
    _words("surfaces", "what is opened", ("walk", "verge", "curb", "pavement", "nothing")),
    _words("walk crossing", "how the pipe passes the walk", choices(Crossing)),
    _length("walk area", "the area of walk taken out", Kind.AREA),
    _number("walk panels", "how many panels of walk are taken out"),
    _length("trench length", "the length of trench in the right-of-way"),
    _length("trench width", "its width"),
    _length("trench depth", "its depth"),
    _length("trench area", "its area", Kind.AREA),
    _length("curb removed", "the length of curb taken out"),
    _yes("plugged", "whether an old hole in the curb is plugged"),
    _yes("begun", "whether work has begun"),
)
_TIME = (
    _day("filing date", "the day the application goes in"),
    _day("proposed start", "the first day of work"),
    _day("proposed finish", "the last day of work"),
    _number("days of work", "how many working days that is"),
    _text("hours of work", "from when to when, each day"),
    _text("revision", "the revision's letter"),
    _yes("walk closed", "whether the walk is closed"),
    _number("walk closed days", "for how many days"),
    _yes("way round", "whether a way round is kept open for people on foot"),
    _words("lane closed", "what of the roadway is taken", _literal(Traffic, "lane_taken")),
    _yes("drive blocked", "whether a drive is blocked"),
    _money("cost", "what the work is estimated to cost, where the job says"),
    _money("fee", "the fee, where it can be worked out"),
    _money("deposit", "the deposit, where it can be worked out"),
    _money("bond", "the bond asked for, where it can be worked out"),
)

FORM_VALUES: dict[str, ValueTold] = {
    told.name: told for told in (*_PEOPLE, *_PLACE, *_WORK, *_TIME)
}
