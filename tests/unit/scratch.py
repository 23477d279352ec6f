"""A small invented gooseneck design for tests, metric, round numbers; every part can be replaced. Nothing is read
from disk."""

from copy import deepcopy

from generator.model.states import STATES, aboard
from generator.model.types import Item, Model
from generator.reference.load import reference
from generator.spec.models.house import House
from generator.spec.models.project import Project
from generator.spec.models.site import Site
from generator.spec.models.spec import Spec, Unknown
from generator.spec.models.tow import Tow
from generator.spec.models.trailer import Trailer
from generator.spec.models.weights import Weights

DATA = reference()

PROJECT = {
    "id": "scratch",
    "title": "Scratch",
    "summary": "A design for tests.",
    "units": "si",
    "currency": "EUR",
    "date": "2026-03-01",
    "stage": "specified",
    "legal_path": "rv",
    "use": {"moves_a_year": "4", "distance_a_year": "1000 km", "roads": ["highway", "paved"], "regions": ["US-OR"]},
    "margins": {"height": "76 mm"},
    "roles": {"owner": "Owner", "designer": "Designer", "questions_to": "Owner", "tows": "Owner"},
    "request": {
        "number": "r-1",
        "quotes_due": "2026-04-01",
        "questions_until": "2026-03-20",
        "quote_valid_days": "30",
        "delivery_place": "Yard",
        "delivery_wanted": "Summer",
        "excluded": ["House"],
        "evaluated_on": ["Price"],
        "payment": ["On delivery"],
        "warranty": "Two years",
    },
}


def axle(**more):
    return {
        "rating": "3200 kg",
        "hub_rating": "3200 kg",
        "unsprung": "160 kg",
        "hub_face": "2.1 m",
        "brake": {"type": "electric", "size": "12 in", "rating": "3200 kg"},
    } | more


TRAILER = {
    "coupling": {
        "type": "gooseneck",
        "station": "-2300 mm",
        "rating": "13000 kg",
        "vertical_rating": "3000 kg",
        "ball_diameter": "58 mm",
        "adjust_low": "500 mm",
        "adjust_high": "800 mm",
        "adjust_step": "25 mm",
    },
    "neck": {
        "front": "-2700 mm",
        "width": "2500 mm",
        "rails_outside": "1702 mm",
        "underside": "1000 mm",
        "frame_depth": "150 mm",
        "shop_step": "5 mm",
    },
    "deck": "between the wheels",
    "frame": {
        "length": "9 m",
        "width": "2500 mm",
        "rails_outside": "1702 mm",
        "deck_thickness": "18 mm",
        "rail_underside": "-230 mm",
        "plates_share": "8 %",
        "coating": "Paint",
        "galvanised": "no",
        "camber_wanted": "Flat",
        "general_tolerance": "B",
        "members": [
            {
                "mark": "r1",
                "title": "Main rail",
                "section": "W8x18",
                "grade": "ASTM A992",
                "run": "lengthwise",
                "start": "0 m",
                "end": "9 m",
                "y": "800 mm",
                "sides": "both",
                "top": "-18 mm",
            },
            {
                "mark": "c1",
                "title": "Crossmember",
                "section": "C4x5.4",
                "grade": "ASTM A36",
                "run": "crosswise",
                "start": "-750 mm",
                "end": "750 mm",
                "stations": ["1 m", "3 m", "8 m"],
                "top": "-18 mm",
            },
            {
                "mark": "n1",
                "title": "Neck rail",
                "section": "HSS6x4x1/4",
                "grade": "ASTM A500 C",
                "run": "lengthwise",
                "start": "-2700 mm",
                "end": "0 m",
                "y": "800 mm",
                "sides": "both",
                "top": "1150 mm",
            },
            {
                "mark": "u1",
                "title": "Riser post",
                "section": "HSS6x4x1/4",
                "grade": "ASTM A500 C",
                "run": "upright",
                "start": "-230 mm",
                "end": "1000 mm",
                "y": "800 mm",
                "sides": "both",
                "stations": ["50 mm"],
            },
        ],
    },
    "running_gear": {
        "station": "5700 mm",
        "spacing": "900 mm",
        "station_step": "10 mm",
        "rearmost": "6600 mm",
        "foremost": "5000 mm",
        "stops": "door ahead, tank behind",
        "suspension": {
            "type": "torsion",
            "arm": "152.4 mm",
            "start_angle": "22.5 deg",
            "tube_to_deck": "317.3 mm",
            "bracket_spacing": "1800 mm",
            "seat_tolerance": "1.6 mm",
            "hitch_height_tolerance": "20 mm",
        },
        "axles": [axle(), axle(), axle()],
        "tyre": {
            "size": "ST235/80R16",
            "kind": "trailer",
            "load_range": "G",
            "load": "1850 kg",
            "pressure": "760 kPa",
            "diameter": "782.4 mm",
            "section_width": "235 mm",
            "stiffness": "500 N/mm",
            "speed": "110 km/h",
            "basis": "quoted",
        },
        "wheel": {"size": "16x6", "load": "1950 kg", "pressure": "760 kPa", "offset": "0 mm", "studs": "8"},
        "spare": "None",
    },
    "wheel_boxes": [{"front": "4500 mm", "rear": "7700 mm", "inside": "850 mm", "top": "250 mm"}],
    "jacks": [],
    "chains": {"grade": "G70", "count": "2", "breaking": "15000 kg", "anchor_station": "-2 m", "breakaway": "Yes"},
    "wiring": {"connector": "7-way", "lamps": ["Tail"], "harness": "Loom", "bonding": "Strap"},
    "welding": {"code": "Code", "visual": "All", "designer": "Engineer"},
    "papers": {"label_place": "Left", "papers": ["Origin"]},
}

HOUSE = {
    "width": "2550 mm",
    "front": "-2700 mm",
    "rear": "9 m",
    "zones": [
        {
            "id": "main",
            "title": "Main",
            "front": "0 m",
            "rear": "9 m",
            "floor": "60 mm",
            "ceiling": "2200 mm",
            "roof": "2600 mm",
            "headroom": "2000 mm",
        },
        {
            "id": "loft",
            "title": "Loft",
            "front": "-2700 mm",
            "rear": "0 m",
            "floor": "1200 mm",
            "ceiling": "2550 mm",
            "roof": "2650 mm",
            "headroom": "1300 mm",
        },
    ],
    "roof_points": [{"id": "ridge", "title": "Ridge", "station": "4 m", "height": "2650 mm"}],
    "buildups": [
        {
            "id": "wall",
            "title": "Wall",
            "spread": "10 %",
            "basis": "table",
            "layers": [
                {"material": "plywood", "thickness": "12 mm"},
                {
                    "material": "spruce-pine-fir",
                    "thickness": "90 mm",
                    "breadth": "40 mm",
                    "spacing": "400 mm",
                    "extra": "15 %",
                },
                {"material": "gypsum-board", "thickness": "12 mm", "group": "interior"},
            ],
        }
    ],
    "surfaces": [
        {
            "id": "left",
            "title": "Left wall",
            "buildup": "wall",
            "plane": "side",
            "front": "0 m",
            "rear": "9 m",
            "left": "-1200 mm",
            "bottom": "60 mm",
            "top": "2460 mm",
        },
        {
            "id": "right",
            "title": "Right wall",
            "buildup": "wall",
            "plane": "side",
            "front": "0 m",
            "rear": "9 m",
            "left": "1200 mm",
            "bottom": "60 mm",
            "top": "2460 mm",
        },
    ],
    "openings": [],
    "people": {"count": "2", "tallest": "1850 mm", "stands_in": ["main"]},
}

WEIGHTS = {
    "items": [
        {
            "id": "hangers",
            "title": "Hangers and fenders",
            "group": "running gear",
            "stage": "bare",
            "mass": "90 kg",
            "quantity": "1",
            "basis": "estimate",
            "front": "5200 mm",
            "rear": "7000 mm",
            "y": "0 m",
            "height": "-200 mm",
        },
        {
            "id": "deck",
            "title": "Decking",
            "group": "frame",
            "stage": "bare",
            "mass": "500 kg",
            "quantity": "1",
            "basis": "quoted",
            "front": "0 m",
            "rear": "9 m",
            "y": "0 m",
            "height": "0 m",
        },
        {
            "id": "roof",
            "title": "Roof",
            "group": "shell",
            "stage": "shell",
            "mass": "1300 kg",
            "quantity": "1",
            "basis": "estimate",
            "front": "-2700 mm",
            "rear": "9 m",
            "y": "0 m",
            "height": "2500 mm",
        },
        {
            "id": "fit-out",
            "title": "Fit-out",
            "group": "furniture",
            "stage": "dry",
            "mass": "1400 kg",
            "quantity": "1",
            "basis": "estimate",
            "front": "-2 m",
            "rear": "9 m",
            "y": "50 mm",
            "height": "900 mm",
        },
        {
            "id": "belongings",
            "title": "Belongings",
            "group": "contents",
            "stage": "travel",
            "mass": "300 kg to 600 kg",
            "quantity": "1",
            "basis": "estimate",
            "front": "-2 m",
            "rear": "8 m",
            "y": "0 m",
            "height": "1 m",
        },
    ],
    "tanks": [
        {
            "id": "fresh",
            "title": "Fresh tank",
            "holds": "fresh water",
            "capacity": "200 L",
            "front": "4 m",
            "rear": "5 m",
            "y": "0 m",
            "height": "300 mm",
            "travel": "10 %",
            "wet": "100 %",
        }
    ],
}

TOW = {
    "vehicle": {
        "title": "Truck",
        "basis": "measured",
        "wheelbase": "4400 mm",
        "hitch_behind_rear_axle": "-50 mm",
        "front_axle": "2250 kg",
        "rear_axle": "1650 kg",
        "people_and_cargo": "150 kg",
        "gvwr": "6350 kg",
        "front_gawr": "2720 kg",
        "rear_gawr": "4420 kg",
        "rear_tyres": "5100 kg",
        "gcwr": "17000 kg",
        "tow_rating": "12000 kg",
        "hitch_rating": "3000 kg",
        "bed_rail": "1480 mm",
        "ball_height": "1060 mm",
        "ball_to_cab": "1500 mm",
        "ball_to_bed_end": "1000 mm",
        "bed_half_width": "870 mm",
        "cab_height": "2050 mm",
        "compliance": "2.5 mm/kN",
    },
    "measured_by": "Owner",
}

SITE = {
    "title": "Pad",
    "slope_along": "1 %",
    "slope_across": "0 %",
    "ground_fall_at_jack": "40 mm",
    "soil": "gravel",
    "bearing": "100 kPa",
    "wind": "40 m/s",
    "snow": "1 kPa",
    "gate_width": "4 m",
}


LEAF = {
    "running_gear.suspension": {
        "type": "leaf",
        "mounting": "over the axle",
        "drop": "0 mm",
        "tube": "76.2 mm",
        "seat": "6 mm",
        "pack": "25.4 mm",
        "arch": "92 mm",
        "rate": "115 N/mm",
        "spring_rating": "1600 kg",
        "eye_length": "660 mm",
        "hanger": "60 mm",
        "bump": "150 mm",
        "bracket_spacing": "1800 mm",
        "seat_tolerance": "1.6 mm",
        "hitch_height_tolerance": "20 mm",
    }
}
"""Changes of TRAILER that put it on leaf springs with equalisers."""

BALL = {
    "coupling": {
        "type": "ball",
        "station": "-1400 mm",
        "rating": "13000 kg",
        "vertical_rating": "1500 kg",
        "ball_diameter": "60 mm",
        "height": "-250 mm",
    },
    "neck": None,
    "tongue": {
        "underside": "-230 mm",
        "angle": "25 deg",
        "members": [
            {
                "mark": "t1",
                "title": "Tongue leg",
                "section": "C6x8.2",
                "grade": "ASTM A36",
                "run": "lengthwise",
                "start": "-1300 mm",
                "end": "0 m",
                "y": "350 mm",
                "sides": "both",
                "top": "-80 mm",
            }
        ],
    },
}
"""Changes of TRAILER that put it on a tongue and a ball behind the tow vehicle."""

KING_PIN = {
    "coupling": {
        "type": "king pin",
        "station": "-2300 mm",
        "rating": "13000 kg",
        "vertical_rating": "3000 kg",
        "pin_diameter": "50.8 mm",
        "pin_length": "80 mm",
        "adjust_low": "350 mm",
        "adjust_high": "550 mm",
        "adjust_step": "50 mm",
    }
}
"""Changes of TRAILER that put it on a king pin."""


def merged(base, changes):
    """A deep copy of nested dicts with changes laid over it; a dotted key reaches into dicts and lists."""
    out = deepcopy(base)
    for path, value in (changes or {}).items():
        part, keys = out, path.split(".")
        for key in keys[:-1]:
            part = part[int(key)] if isinstance(part, list) else part[key]
        part[int(keys[-1]) if isinstance(part, list) else keys[-1]] = value
    return out


def spec(project=None, trailer=None, house=None, weights=None, tow=None, site=SITE, with_tow=True, unknowns=()):
    """The scratch design with changes by dotted key."""
    return Spec(
        project=Project.model_validate(merged(PROJECT, project)),
        trailer=Trailer.model_validate(merged(TRAILER, trailer)),
        house=House.model_validate(merged(HOUSE, house)),
        weights=Weights.model_validate(merged(WEIGHTS, weights)),
        tow=Tow.model_validate(merged(TOW, tow)) if with_tow else None,
        site=Site.model_validate(site) if site else None,
        costs=None,
        revisions=None,
        notes=(),
        unknowns=tuple(Unknown(*u) for u in unknowns),
    )


def item(id, mass, x, stage="bare", spread=0.0, shape=None, **more):
    """An item with its middle at x; sure unless a spread (share) is given."""
    defaults = {
        "title": id,
        "group": "shell",
        "basis": "table",
        "y": 0.0,
        "z": 1.0,
        "aboard": aboard(stage),
        "x0": x,
        "x1": x,
    }
    return Item(
        id=id,
        mass=mass,
        low=mass * (1 - spread),
        high=mass * (1 + spread),
        shape=shape or ("normal" if spread else "sure"),
        **(defaults | more),
    )


def model(items, of=None, stations=(5.2, 6.1, 7.0)):
    """A model of given items on the scratch trailer."""
    return Model(of or spec(), STATES, tuple(items), (), stations)
