"""The shape of the summary's JSON, as JSON Schema."""

from __future__ import annotations

from typing import Any

from coilwright.job.life import OrderState
from coilwright.plan.purchases import BuyWhat
from coilwright.plan.quotes.report import Group, Part, Share
from coilwright.plan.ready import ReasonKind
from coilwright.plan.receiving.report import Verdict
from coilwright.sheets.data.summary import FORMAT, VERSION
from coilwright.units import System
from coilwright.values.finding import Level
from coilwright.values.standing import Standing

Json = dict[str, Any]

_TEXT: Json = {"type": "string"}
_WHOLE: Json = {"type": "integer", "minimum": 0}
_YES_NO: Json = {"type": "boolean"}
_STANDING: Json = {"enum": [s.value for s in Standing]}


def _object(required: Json, perhaps: Json | None = None, **more: Any) -> Json:
    return {"type": "object", "required": list(required),
            "properties": {**required, **(perhaps or {})}, **more}


def _list(items: Json) -> Json:
    return {"type": "array", "items": items}


def _or_null(schema: Json) -> Json:
    return {"anyOf": [schema, {"type": "null"}]}


_QUANTITY: Json = {"$ref": "#/$defs/quantity"}
_STANDING_QUANTITY: Json = {"$ref": "#/$defs/standing_quantity"}
_CORNERS: Json = {"$ref": "#/$defs/corners"}
_CUTS: Json = _list(_object({
    "plane": _TEXT, "name": _TEXT, "length": _QUANTITY, "count": _WHOLE,
}))
_ANSWER: Json = _object({"answer": _TEXT, "label": _TEXT})

_AS_ORDERED: Json = {"as_ordered": {"type": "number"}}

_DEFINITIONS: Json = {
    "quantity": _object(
        {"value": {"type": "number"}, "unit": _TEXT, "text": _TEXT},
        description="A number in its canonical unit, and as people read it.",
    ),
    "standing_quantity": _object(
        {"value": {"type": "number"}, "unit": _TEXT, "text": _TEXT, "standing": _STANDING},
        _AS_ORDERED,
        description="A quantity, and whether it rests on a guess. value: as it was worked out. "
                    "as_ordered, where an order sets it: what the order says, in the same unit, "
                    "as text has it.",
    ),
    "corners": _object(
        {"unit": _TEXT, "corners": _list(_list({"type": "number"}))},
        description="Corners as x along the eave and y up the slope.",
    ),
    "figure": _object({
        "label": _TEXT, "value": {"type": "number"}, "unit": _TEXT, "text": _TEXT,
        "standing": _STANDING, "equation": _TEXT,
        "terms": {"type": "object", "additionalProperties": _TEXT,
                  "description": "The equation's symbols, each with the key of its figure."},
        "source": _TEXT, "note": _TEXT,
    }, _AS_ORDERED),
    "plane": _object({
        "key": _TEXT, "name": _TEXT, "alike": _WHOLE, "area": _STANDING_QUANTITY,
        "pitch": _or_null(_QUANTITY), "outline": _CORNERS, "openings": _list(_CORNERS),
        "edges": _list(_object({"number": _WHOLE, "kind": _TEXT, "length": _QUANTITY})),
        "start": _or_null(_QUANTITY),
        "panels": _list(_object({"length": _QUANTITY, "count": _WHOLE})),
    }),
    "coil": _object({
        "number": _WHOLE, "kind": {"enum": ["new"]}, "width": _STANDING_QUANTITY,
        "length": _STANDING_QUANTITY, "mass": _STANDING_QUANTITY,
        "outside_diameter": _STANDING_QUANTITY, "governing_limit": _or_null(_TEXT),
        "cuts": _CUTS,
    }),
    "finding": _object({
        "level": {"enum": [level.value for level in Level]}, "key": _TEXT, "what": _TEXT,
        "why": _TEXT, "do": _TEXT, "source": _TEXT, "step": _TEXT, "answers": _list(_TEXT),
        "accept": _or_null(_TEXT),
    }),
}

_MONEY: Json = _or_null({"$ref": "#/$defs/quantity"})
_DEFINITIONS["quote"] = _object({
    "number": _WHOLE, "supplier": _TEXT, "reference": _or_null(_TEXT), "date": _or_null(_TEXT),
    "asked": _or_null(_TEXT), "rank": _or_null(_WHOLE),
    "group": {"enum": [group.value for group in Group]},
    "awarded": _YES_NO, "currency": _or_null(_TEXT), "quoted": _TEXT,
    "at_least": _YES_NO, "guess": _YES_NO,
    "landed": _MONEY, "landed_at_most": _MONEY,
    "metal_price_moved": _or_null(_object({"percent": _WHOLE, "down": _MONEY, "up": _MONEY})),
    "shares": _object({share.value: _MONEY for share in Share}),
    "parts": _or_null(_object({part.name.lower(): _MONEY for part in Part})),
    "lines": _list(_object({"name": _TEXT, "how": _TEXT, "amount": _MONEY,
                             "equation": _or_null(_TEXT)})),
    "ships": _or_null(_object({
        "coils": _list(_STANDING_QUANTITY), "length": _STANDING_QUANTITY,
        "mass": _STANDING_QUANTITY, "paid_mass": _QUANTITY, "beyond_need": _QUANTITY,
        "leftover": _QUANTITY, "metal_for_trim": _or_null(_QUANTITY),
    })),
    "leftover_worth": _MONEY, "before_delivery": _MONEY, "arrives": _or_null(_TEXT),
    "days_to_spare": _or_null({"type": "integer"}), "holds_until": _or_null(_TEXT),
    "missing": _list(_TEXT), "worth_asking": _list(_TEXT), "deviations": _list(_TEXT),
    "misses": _list(_TEXT), "faults": _list(_TEXT), "own_coils": _list(_TEXT),
}, description="A quote on one footing, for what its supplier would ship. rank: null where it is "
               "not complete, misses a must-have or cannot be compared; at_least: something is "
               "missing, so it lands at that or more.")

SCHEMA: Json = {
    "$schema": "https://json-schema.org/draft/2020-12/schema",
    "title": "Coilwright summary",
    **_object({
        "format": {"const": FORMAT},
        "version": {"const": VERSION},
        "job": _object({
            "name": _or_null(_TEXT), "client": _or_null(_TEXT), "site": _or_null(_TEXT),
            "needed_by": _or_null(_TEXT), "open_answers": _list(_ANSWER),
            "guesses": _list(_ANSWER),
        }),
        "units": {"enum": [system.value for system in System]},
        "ready": _YES_NO | {"description": "Whether the order can go out; why_not says why not."},
        "sound": _YES_NO | {
            "description": "What `check` goes by: ready, the supplier has what the order tells "
                           "now, no coil that came is on hold, none is awaited of an order that "
                           "is marked delivered."},
        "state": _TEXT,
        "why_not": _list(_object({
            "kind": {"enum": [kind.value for kind in ReasonKind]}, "key": _TEXT, "words": _TEXT,
            "do": _TEXT,
        }, description="All that holds the order. stop: a finding to put right; accept: one to put "
                       "right or take on by name; ask, guess: an answer; question: one that is "
                       "neither answered nor waived; missing: nothing to order.")),
        "settled": _list(_object({
            "kind": {"enum": ["accepted", "waived"]}, "key": _TEXT, "words": _TEXT,
            "by": _or_null(_TEXT), "reason": _TEXT,
        }, description="What would hold the order and was taken on knowingly.")),
        "nothing_to_buy": _YES_NO,
        "figures": {"type": "object", "additionalProperties": {"$ref": "#/$defs/figure"}},
        "missing": {
            "type": "object",
            "additionalProperties": _object({
                "label": _TEXT, "needs": _list(_TEXT), "because": _TEXT,
            }),
        },
        "planes": _list({"$ref": "#/$defs/plane"}),
        "limits": _list(_object({
            "key": _TEXT, "name": _TEXT, "words": _TEXT, "length": _STANDING_QUANTITY,
            "governs": _YES_NO,
        })),
        "fits": _list(_object({
            "key": _TEXT, "name": _TEXT, "value": _STANDING_QUANTITY,
            "least": _or_null(_STANDING_QUANTITY), "most": _or_null(_STANDING_QUANTITY),
            "known": _YES_NO, "fits": _or_null(_YES_NO),
        })),
        "coils": _list({"$ref": "#/$defs/coil"}),
        "buy": _list(_object({
            "key": _TEXT, "what": {"enum": [what.value for what in BuyWhat]},
            "count": _STANDING_QUANTITY, "metal": _or_null(_TEXT), "coating": _or_null(_TEXT),
            "width": _STANDING_QUANTITY, "thickness": _STANDING_QUANTITY,
            "length": _STANDING_QUANTITY, "mass_each": _STANDING_QUANTITY,
            "mass": _STANDING_QUANTITY, "finish": _or_null(_TEXT), "color": _or_null(_TEXT),
            "lot": _TEXT, "trim": _YES_NO,
        }, description="Everything to buy: so many alike, each so wide, thick and long; all of "
                       "one metal and finish.")),
        "accessories": _list(_object({
            "key": _TEXT, "name": _TEXT, "amount": _or_null(_STANDING_QUANTITY),
            "net": _or_null(_STANDING_QUANTITY), "allowance": _STANDING_QUANTITY,
            "basis": _TEXT, "needs": _list(_TEXT),
        }, description="What goes on the roof beside the metal; counted, not engineered, and no "
                       "part of the coil order.")),
        "cut_plan": _or_null(_object({
            "proven": _YES_NO, "least": _STANDING_QUANTITY, "gap": _STANDING_QUANTITY,
            "gap_mass": _STANDING_QUANTITY,
        }, description="How good the cuts are: proven the best there are, or within a gap of the "
                       "least that could be ordered.")),
        "budget": _list(_object({
            "name": _TEXT, "key": _TEXT, "mass": _STANDING_QUANTITY, "share": _STANDING_QUANTITY,
            "length": _or_null(_STANDING_QUANTITY), "money": _or_null(_STANDING_QUANTITY),
        })),
        "on_hand": _list(_object({
            "tag": _TEXT, "strip": _WHOLE, "strips": _WHOLE, "length": _STANDING_QUANTITY,
            "taken": _STANDING_QUANTITY, "leftover": _STANDING_QUANTITY, "too_short": _YES_NO,
            "cuts": _CUTS,
        })),
        "trim": _list(_object({
            "made_from": _TEXT, "width": _STANDING_QUANTITY, "blank": _STANDING_QUANTITY,
            "rows": _STANDING_QUANTITY, "sheets": _or_null(_STANDING_QUANTITY),
            "length": _STANDING_QUANTITY, "drop": _STANDING_QUANTITY, "proven": _YES_NO,
            "patterns": _list(_object({
                "times": _WHOLE, "length": _QUANTITY, "drop": _QUANTITY,
                "across": _list(_object({"piece": _TEXT, "count": _WHOLE})),
            })),
        })),
        "loads": _list(_object({
            "key": _TEXT, "name": _TEXT, "place": _TEXT, "load": _or_null(_STANDING_QUANTITY),
            "weight_known": _or_null(_STANDING_QUANTITY), "rating": _or_null(_STANDING_QUANTITY),
            "margin": _or_null(_STANDING_QUANTITY),
            "known": _YES_NO, "over": _or_null(_YES_NO), "word": _TEXT, "needs": _list(_TEXT),
        }, description="Loads against ratings; over is null where either is not known. "
                       "weight_known: what is known of a load of which something is missing. "
                       "Not over clears nothing: the plates decide.")),
        "slitting": _list(_object({
            "key": _TEXT, "master": _STANDING_QUANTITY, "ordered": _YES_NO,
            "strips_across": _STANDING_QUANTITY,
            "length": _STANDING_QUANTITY, "mass": _STANDING_QUANTITY,
            "drop": _object({
                "width": _STANDING_QUANTITY, "share": _STANDING_QUANTITY,
                "mass": _STANDING_QUANTITY, "money": _or_null(_STANDING_QUANTITY),
            }),
            "passes": _list(_object({
                "key": _TEXT, "length": _STANDING_QUANTITY,
                "strands": _list(_object({
                    "name": _TEXT, "width": _STANDING_QUANTITY, "coil": _or_null(_WHOLE),
                })),
                "mass": _STANDING_QUANTITY,
                "drop": _object({"width": _STANDING_QUANTITY, "mass": _STANDING_QUANTITY}),
            })),
            "proven": _YES_NO, "left_out": _list(_TEXT),
        }, description="The supplier's masters, the least metal first. The one ordered has its "
                       "passes: all strands of a pass are as long as it, and coil is the number "
                       "of the coil of the order that a strand is.")),
        "findings": _list({"$ref": "#/$defs/finding"}),
        "questions": _list(_object({
            "key": _TEXT, "who": _TEXT, "ask": _TEXT, "why": _TEXT, "good_answer": _TEXT,
            "otherwise": _TEXT, "answer": _or_null(_TEXT), "status": _TEXT, "said": _TEXT,
            "holds_the_order": _YES_NO, "waived": _or_null(_TEXT),
        })),
        "ask_first": _list(_object({
            "answer": _TEXT, "label": _TEXT, "standing": _STANDING, "who": _TEXT, "tried": _TEXT,
            "moves": _TEXT, "stops": _WHOLE, "mass": _or_null(_QUANTITY),
        })),
        "quotes": _list({"$ref": "#/$defs/quote"}),
        "life": _object({
            "state": {"enum": [state.value for state in OrderState]},
            "changed_since_sent": _YES_NO,
            "steps": _list(_object({
                "state": _TEXT, "date": _TEXT, "back": _YES_NO, "note": _TEXT,
            })),
            "sent": _list(_object({
                "revision": _TEXT, "number": _or_null(_TEXT), "date": _TEXT,
                "supplier": _or_null(_TEXT), "confirmed": _or_null(_object({
                    "date": _TEXT, "number": _or_null(_TEXT), "ships": _or_null(_TEXT),
                })), "canceled": _or_null(_object({"date": _TEXT, "note": _TEXT})),
            })),
            "awards": _list(_object({
                "supplier": _TEXT, "date": _TEXT, "taken_back": _YES_NO, "note": _TEXT})),
        }, description="How far the order is; what was sent is kept whole in the job's file."),
    }),
    "$defs": _DEFINITIONS,
}
"""What `summary --json` gives; new keys may be added to it, none taken away."""

_MAYBE_QUANTITY: Json = _or_null(_STANDING_QUANTITY)
SCHEMA["properties"]["arrived"] = _list(_object({
    "number": _WHOLE, "name": _TEXT, "tag": _TEXT, "coil": _or_null(_WHOLE), "lot": _TEXT,
    "color": _TEXT,
    "verdict": {"enum": [verdict.value for verdict in Verdict]}, "words": _TEXT,
    "missing": _list(_TEXT), "faults": _list(_TEXT),
    "reasons": _list({"$ref": "#/$defs/finding"}),
    "sizes": _list(_object({
        "key": _TEXT, "name": _TEXT, "ordered": _MAYBE_QUANTITY, "found": _MAYBE_QUANTITY,
        "least": _MAYBE_QUANTITY, "most": _MAYBE_QUANTITY, "words": _TEXT,
    })),
    "enough": _TEXT, "need": _MAYBE_QUANTITY, "need_without_spare": _MAYBE_QUANTITY,
    "lengths": _list(_object({
        "key": _TEXT, "name": _TEXT, "likely": _STANDING_QUANTITY, "least": _STANDING_QUANTITY,
        "most": _STANDING_QUANTITY, "enough": _TEXT, "short": _YES_NO, "margin": _MAYBE_QUANTITY,
    })),
    "disagree": _list(_object({
        "longer": _TEXT, "shorter": _TEXT, "apart": _STANDING_QUANTITY, "causes": _list(_TEXT),
    })),
    "remark": _TEXT,
    "figures": {"type": "object", "additionalProperties": {"$ref": "#/$defs/figure"}},
}))
"""Coils that arrived: there only when there are any, so not among what is required."""
SCHEMA["properties"]["held_to"] = _or_null(_object({
    "revision": _TEXT, "sent": _TEXT, "on_file": _YES_NO, "words": _TEXT,
}))
"""What coils that arrived are held to, beside them; null while no order was sent."""
