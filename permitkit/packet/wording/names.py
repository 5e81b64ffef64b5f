"""Every name that a template may use, as a tree: what each template is given."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeAlias

from permitkit.model.work import Restoration

__all__ = ["NAMES", "TEXT", "Tree", "told"]

Tree: TypeAlias = Mapping[str, "Tree"] | tuple["Tree"] | None
"""Names of names; a list, as a tuple of the one tree that each of it is; or a text, the end."""

TEXT: Tree = None


def _texts(names: str) -> dict[str, Tree]:
    return dict.fromkeys(names.split(), TEXT)


_PACKET: dict[str, Tree] = {
    "town": _texts("title office address standing"),
    "firm": _texts("name address phone phone_24h email signer signer_title"),
    "site": _texts("address parcel owner owner_phone frontage cross_street row_line row_basis"),
    "street": _texts("name street_class authority speed width parking paved"),
    "outlet": {
        **_texts("words kind"),
        "passed_over": (_texts("way because"),),
        "plugged": (TEXT,),
    },
    "water": {
        **_texts("total rain kinds run spare_fall fall_short available_fall emitter held"),
        "inflows": (_texts("name kind node area flow"),),
        "standing": (_texts("where volume depth"),),
    },
    "curb": {
        **_texts("opened reveal shape"),
        "hole": _texts("bit bottom invert strip gap centre window"),
        "notch": _texts("width toe back slope"),
    },
    "cut": _texts("walk crossing area panels saw saw_depth trench concrete thickness"),
    "restoration": {
        name: TEXT
        for name, field in Restoration.model_fields.items()
        if field.annotation is not bool
    },
    "dates": _texts(
        "filing start finish days permit_until guarantee_until ticket called dig_from ticket_until"
    ),
    "traffic": {
        **_texts(
            "walk_closed days lane_taken width_taken lane_left taper taper_need spacing buffer"
            " sign_spacing layout set_by hours overnight neighbours_told drive_blocked bus_stop"
            " bin_day source"
        ),
        "way": _texts("where width detectable signs"),
    },
    **_texts("fee_total deposit_total revision"),
    "asks": (_texts("title why section"),),
    "assumed": (_texts("note value"),),
}
_TOWN: dict[str, Tree] = {
    "town": _texts(
        "title place standing verified office address phone email checked age due overdue"
    ),
    "day": TEXT,
}
_QUESTION: Tree = {**_texts("key subject text why silent"), "open": (TEXT,), "known": (TEXT,)}
_ASKING: dict[str, Tree] = {
    **_TOWN,
    "firm": _texts("name address phone email signer"),
    "job": _texts("address owner"),
    "count": TEXT,
    **dict.fromkeys(("first", "blocking", "others", "seldom"), (_QUESTION,)),
}

NAMES: dict[str, dict[str, Tree]] = {
    "need": _PACKET,
    "scope": _PACKET,
    "application": {**_PACKET, "declarations": (TEXT,)},
    "restoration": {**_PACKET, "conditions": (TEXT,), "cautions": (TEXT,)},
    "traffic": _PACKET,
    "town-page": _TOWN,
    "call-script": _ASKING,
    "letter": _ASKING,
}
"""The templates there are, and what each is given."""


def told(tree: Mapping[str, Tree], within: str = "") -> list[str]:
    """Return the names of a tree as lines for a guide, such as `site`: `address`, `parcel`."""
    lines = []
    for name, below in tree.items():
        many = isinstance(below, tuple)
        inner = below[0] if isinstance(below, tuple) else below
        full = f"{within}{name}"
        if isinstance(inner, Mapping):
            plain = [f"`{one}`" for one, of in inner.items() if of is TEXT or many]
            lines.append(f"`{full}`: {'a list, each with ' * many}{', '.join(plain)}")
            deeper = {one: of for one, of in inner.items() if of is not TEXT}
            lines += [] if many else told(deeper, f"{full}.")
        else:
            lines.append(f"`{full}`{': a list' * many}")
    return lines
