"""trailer.yaml: coupling, deck, neck or tongue, frame members, axles, tyres, jacks and what else is welded on.

Stations are positive aft of datum A (front face of the main deck's front crossmember), heights are above the
main-deck top, y is positive to the right looking forward.
"""

from typing import Annotated, Literal

from pydantic import Field

from generator.spec.measure import (
    Angle,
    Area,
    Coefficient,
    Count,
    Current,
    Duration,
    Efficiency,
    Gap,
    Length,
    Mass,
    Measure,
    Pressure,
    Rating,
    Share,
    Size,
    Speed,
    Stiffness,
    Voltage,
)
from generator.spec.models.base import BasisWord, Id, Line, Part, Side, Title


class Gooseneck(Part):
    """A gooseneck coupler on a ball in the bed of the tow vehicle."""

    type: Literal["gooseneck"] = Field(description="Kind of coupling.")
    station: Length = Field(description="Station of the ball centre (ahead of datum A: negative).")
    rating: Rating = Field(description="Gross trailer mass the coupler is rated for.")
    vertical_rating: Rating = Field(description="Vertical load the coupler is rated for.")
    ball_diameter: Size = Field(description="Ball the coupler takes.")
    adjust_low: Size = Field(description="Neck underside above ball centre, coupler fully retracted.")
    adjust_high: Size = Field(description="Neck underside above ball centre, coupler fully extended.")
    adjust_step: Size = Field(description="Step of the coupler's pin holes.")


class KingPin(Part):
    """A king pin under a pin box, on a plate in the bed of the tow vehicle."""

    type: Literal["king pin"] = Field(description="Kind of coupling.")
    station: Length = Field(description="Station of the pin's axis (ahead of datum A: negative).")
    rating: Rating = Field(description="Gross trailer mass the pin box is rated for.")
    vertical_rating: Rating = Field(description="Vertical load the pin box is rated for.")
    pin_diameter: Size = Field(description="Diameter of the pin where the jaws close.")
    pin_length: Size = Field(description="Pin plate to the end of the pin.")
    adjust_low: Size = Field(description="Neck underside above the pin plate, pin box in its highest holes.")
    adjust_high: Size = Field(description="Neck underside above the pin plate, pin box in its lowest holes.")
    adjust_step: Size = Field(description="Step of the pin box's holes.")


class Ball(Part):
    """A coupler at the front of a tongue, on a ball behind the tow vehicle."""

    type: Literal["ball"] = Field(description="Kind of coupling.")
    station: Length = Field(description="Station of the ball centre (ahead of datum A: negative).")
    rating: Rating = Field(description="Gross trailer mass the coupler is rated for.")
    vertical_rating: Rating = Field(description="Vertical load the coupler is rated for.")
    ball_diameter: Size = Field(description="Ball the coupler takes.")
    height: Length = Field(description="Height of the ball centre above the main-deck top (below: negative).")


class Neck(Part):
    """The raised deck over the bed of the tow vehicle."""

    front: Length = Field(description="Station of the front face of the neck deck (negative).")
    width: Size = Field(description="Width of the neck deck.")
    rails_outside: Size = Field(description="Width outside to outside of the neck rails.")
    underside: Length = Field(description="Height of the underside of the neck frame above the main-deck top.")
    frame_depth: Size = Field(description="Depth of the neck frame, underside to top of neck decking's support.")
    shop_step: Size = Field(description="Step to which the shop holds the neck height.")


class Member(Part):
    """One mark of the frame; repeated members share a mark."""

    mark: Id = Field(description="Mark on the drawings.")
    title: Title = Field(description="Name of the member.")
    section: Line = Field(description="Section, a name of the reference table (HSS6x2x3/16, C4x5.4 ...).")
    grade: Line = Field(description="Steel grade.")
    run: Literal["lengthwise", "crosswise", "upright"] = Field(description="Direction of its length.")
    start: Length = Field(description="Where it starts along its run: station, y or height.")
    end: Length = Field(description="Where it ends along its run: station, y or height.")
    stations: tuple[Length, ...] = Field(default=(), description="Stations of its centre line (crosswise, upright).")
    y: Length | None = Field(default=None, description="Offset of its centre line from the centre line of the trailer.")
    sides: Side = Field(default="centre", description="`both` repeats it mirrored on the other side.")
    top: Length | None = Field(default=None, description="Height of its top face (lengthwise, crosswise).")
    braces: Literal["top", "bottom", "both", "none"] | None = Field(
        default=None, description="Flanges of the rails it holds sideways; by its place where not said."
    )


class Tongue(Part):
    """The tongue ahead of the main deck, for a ball behind the tow vehicle; its members are its own."""

    underside: Length = Field(description="Height of its underside above the main-deck top (below: negative).")
    angle: Angle = Field(description="Angle in plan between a lengthwise member and the centre line; 0 deg: straight.")
    members: tuple[Member, ...] = Field(
        min_length=1, description="Its members; lengthwise ones run from coupler to root, y at the middle of the run."
    )


class Frame(Part):
    """The welded frame."""

    length: Size = Field(description="Length of the main deck.")
    width: Size = Field(description="Width of the main deck.")
    rails_outside: Size = Field(description="Width outside to outside of the main rails.")
    deck_thickness: Gap = Field(description="Decking between the top of the steel and the main-deck top.")
    belly: Gap | None = Field(
        default=None, description="Main-deck top down to foam and belly sheet, where the deck is over the tyres."
    )
    rail_underside: Length = Field(description="Height of the underside of the main rails (below the deck: negative).")
    members: tuple[Member, ...] = Field(min_length=1, description="All members, one entry per mark.")
    plates_share: Share = Field(description="Plates, gussets and weld metal as a share of the members' mass.")
    coating: Line = Field(description="Preparation and coating asked for.")
    galvanised: Literal["yes", "no"] = Field(description="Hot-dip galvanised.")
    camber_wanted: Line = Field(description="Camber and how it is measured.")
    general_tolerance: Literal["A", "B", "C", "D"] = Field(description="ISO 13920 class of linear dimensions.")


class Tyre(Part):
    """The tyre as marked on its sidewall."""

    size: Line = Field(description="Size as marked.")
    kind: Literal["trailer", "light truck", "passenger", "commercial"] = Field(description="Service kind.")
    load_range: Line = Field(description="Load range or ply rating as marked.")
    load: Rating = Field(description="Greatest load, single fitment.")
    pressure: Pressure = Field(description="Cold pressure for that load.")
    diameter: Size = Field(description="Outside diameter, unloaded.")
    section_width: Size = Field(description="Section width.")
    stiffness: Stiffness = Field(description="Vertical stiffness of one tyre.")
    speed: Speed = Field(description="Speed for which it is marked or, unmarked, rated by its maker.")
    basis: BasisWord = Field(description="Where the load comes from.")
    cornering: Coefficient | None = Field(
        default=None, description="Cornering stiffness per radian, over the load carried, as its maker states it."
    )


class Wheel(Part):
    """The wheel."""

    size: Line = Field(description="Diameter and width.")
    load: Rating = Field(description="Rated load.")
    pressure: Pressure = Field(description="Rated cold pressure.")
    offset: Length = Field(description="Offset: mounting face outboard of the rim's middle is positive.")
    studs: Line = Field(description="Stud pattern.")


class Brake(Part):
    """The brakes of one axle."""

    type: Literal["electric", "electric over hydraulic", "over-run", "none"] = Field(
        description="How they are worked; over-run (surge) brakes by the trailer's push on the coupling, without a "
        "controller."
    )
    size: Line = Field(description="Size as the maker names it.")
    rating: Mass = Field(description="Axle load for which the pair is rated; 0 lb without brakes.")


class Torsion(Part):
    """Rubber-torsion axles on trailing arms; they do not share load."""

    type: Literal["torsion"] = Field(description="Kind of suspension.")
    arm: Size = Field(description="Length of the trailing arm.")
    start_angle: Angle = Field(description="Angle of the unloaded arm below level.")
    tube_to_deck: Size = Field(description="Torsion tube centre to main-deck top.")
    bracket_spacing: Size = Field(description="Bracket centres across the trailer.")
    seat_tolerance: Gap = Field(description="Height tolerance of a bracket seat against the others.")
    hitch_height_tolerance: Gap = Field(description="Ball above or below the level height, either way.")


class Leaf(Part):
    """Beam axles on leaf springs; with two or more, equalisers between the springs share the load evenly."""

    type: Literal["leaf"] = Field(description="Kind of suspension.")
    mounting: Literal["over the axle", "under the axle"] = Field(description="Where the springs lie.")
    drop: Length = Field(description="Beam below the spindles; 0 in for a straight axle.")
    tube: Size = Field(description="Outside diameter of the beam.")
    seat: Gap = Field(description="Height of the spring seat on the beam.")
    pack: Size = Field(description="Thickness of the pack of leaves at the seat.")
    arch: Length = Field(description="Line of the eyes above the main leaf at the seat, unloaded.")
    rate: Stiffness = Field(description="Rate of one spring.")
    spring_rating: Rating = Field(description="Rated load of one spring.")
    eye_length: Size = Field(description="Eye to eye of one spring.")
    hanger: Size = Field(description="Eye of the spring to the underside of the main rail.")
    bump: Size = Field(description="Travel of the axle from the unloaded spring to its stop.")
    bracket_spacing: Size = Field(description="Spring centres across the trailer.")
    seat_tolerance: Gap = Field(description="Height tolerance of a hanger against the others.")
    hitch_height_tolerance: Gap = Field(description="Ball above or below the level height, either way.")


class Axle(Part):
    """One axle, front to rear."""

    rating: Rating = Field(description="Rated load of the axle as its maker labels it.")
    hub_rating: Rating = Field(description="Rated load of its hubs and bearings, the pair.")
    unsprung: Mass = Field(description="Axle, hubs, brakes, wheels and tyres.")
    hub_face: Size = Field(description="Hub face to hub face.")
    brake: Brake = Field(description="Its brakes.")


Coupling = Annotated[Gooseneck | Ball | KingPin, Field(discriminator="type")]
Suspension = Annotated[Torsion | Leaf, Field(discriminator="type")]


class RunningGear(Part):
    """Axles, suspension, tyres and wheels."""

    station: Length = Field(description="Station of the middle of the axle group at the travel load.")
    spacing: Size = Field(description="Axle to axle.")
    station_step: Size = Field(description="Step to which the shop sets the group.")
    rearmost: Length = Field(description="Rearmost station the group may take (doors, tanks, overhang).")
    foremost: Length = Field(description="Foremost station the group may take.")
    stops: Line = Field(description="What sets those two stations.")
    suspension: Suspension = Field(description="How the axles are sprung.")
    axles: tuple[Axle, ...] = Field(min_length=1, max_length=4, description="The axles, front to rear.")
    tyre: Tyre = Field(description="The tyre, all positions.")
    wheel: Wheel = Field(description="The wheel, all positions.")
    spare: Line = Field(description="Spare wheel and where it is carried.")


class WheelBox(Part):
    """The box over the wheels of one side that stands into the house."""

    front: Length = Field(description="Front face, station.")
    rear: Length = Field(description="Rear face, station.")
    inside: Size = Field(description="Inner face, distance from the centre line.")
    top: Length = Field(description="Height of its top above the main-deck top.")


class Motor(Part):
    """A motor on a jack, as its maker states it."""

    voltage: Voltage = Field(description="Nominal voltage.")
    current: Current = Field(description="Current at the rated lift.")
    speed: Speed = Field(description="Lifting speed at the rated lift.")
    duty: Duration = Field(description="Longest run the maker allows.")
    cable_length: Size = Field(description="Cable from battery to motor, one way.")
    cable_area: Area = Field(description="Copper area of the cable.")
    cable_ampacity: Current = Field(description="Current the cable may carry.")


class Screw(Part):
    """The lifting screw and its gear, as the maker states them."""

    lead: Size = Field(description="Rise per turn of the screw.")
    pitch_diameter: Size = Field(description="Pitch diameter.")
    collar_diameter: Size = Field(description="Mean diameter of the thrust collar.")
    thread_friction: Coefficient = Field(description="Friction of the thread.")
    collar_friction: Coefficient = Field(description="Friction of the collar.")
    gear: Coefficient = Field(description="Crank turns per turn of the screw.")
    gear_efficiency: Efficiency = Field(description="Efficiency of the gear.")
    crank: Size = Field(description="Crank radius.")


class Jack(Part):
    """A jack or a mirrored pair of jacks."""

    id: Id = Field(description="Name.")
    title: Title = Field(description="Name as printed.")
    station: Length = Field(description="Station of the leg.")
    y: Length = Field(description="Offset of a leg from the centre line (pair: both sides).")
    legs: Count = Field(description="1 or 2.")
    drive: Literal["shared shaft", "one each", "single"] = Field(description="How the legs are driven.")
    lift_rating: Rating = Field(description="Rated load of one leg while lifting.")
    static_rating: Rating = Field(description="Rated load of one leg while standing.")
    stroke: Size = Field(description="Powered or cranked travel.")
    foot_clearance: Gap = Field(description="Foot above ground, retracted, trailer level.")
    pin_step: Size | None = Field(default=None, description="Step of the drop leg; none: no drop leg.")
    block: Gap = Field(description="Height of the block under the foot.")
    pad: Size | None = Field(default=None, description="Side of the square pad under one foot when parked.")
    screw: Screw = Field(description="Screw, gear and crank; also the way home with a dead battery.")
    motor: Motor | None = Field(default=None, description="Motor, if powered.")


class Stand(Part):
    """A pair of stands under the frame, parked."""

    id: Id = Field(description="Name.")
    station: Length = Field(description="Station.")
    y: Length = Field(description="Offset from the centre line, both sides.")
    rating: Rating = Field(description="Rated load of one stand.")
    pad: Size | None = Field(default=None, description="Side of the square pad under one stand.")
    reach: Size | None = Field(default=None, description="Range over which its height can be set.")


class Point(Part):
    """A lift, tie-down or anchor point on the frame."""

    id: Id = Field(description="Name.")
    kind: Literal["lift", "tie", "anchor"] = Field(description="What it is for.")
    station: Length = Field(description="Station.")
    y: Length = Field(description="Offset from the centre line, both sides.")
    rating: Rating = Field(description="Rated load of one point.")


class LowPoint(Part):
    """Something of trailer or house that hangs low: tank, step, spare wheel, dump fitting, skid."""

    id: Id = Field(description="Name.")
    title: Title = Field(description="Name as printed.")
    station: Length = Field(description="Station of its lowest point.")
    height: Length = Field(description="Height of its lowest point (below the deck: negative).")
    wears: Literal["yes", "no"] = Field(default="no", description="Made to touch the ground: a skid or roller.")


class Chains(Part):
    """Safety chains and breakaway."""

    grade: Line = Field(description="Grade and size.")
    count: Count = Field(description="How many.")
    breaking: Rating = Field(description="Least breaking strength of one chain.")
    anchor_station: Length = Field(description="Station of the anchors.")
    breakaway: Line = Field(description="Switch, battery and charger; with over-run brakes the cable and its lever.")


class Wiring(Part):
    """Lamps, harness and connector."""

    connector: Line = Field(description="Connector to the tow vehicle.")
    lamps: tuple[Line, ...] = Field(min_length=1, description="Lamps and reflectors asked for.")
    harness: Line = Field(description="How the harness is run and protected.")
    bonding: Line = Field(description="Bonding of house and frame.")


class Papers(Part):
    """Marks and papers that come with the trailer."""

    label_place: Line = Field(description="Where the certification label stands.")
    papers: tuple[Line, ...] = Field(min_length=1, description="Papers asked for.")


class Welding(Part):
    """How the frame is welded and looked at."""

    code: Line = Field(description="Welding code and class.")
    visual: Line = Field(description="Inspection asked for.")
    designer: Line = Field(description="Who designs the welds.")


class Trailer(Part):
    """trailer.yaml"""

    coupling: Coupling = Field(description="How it is towed.")
    neck: Neck | None = Field(default=None, description="The raised deck, for a gooseneck or a king pin.")
    deck: Literal["between the wheels", "over the wheels"] = Field(description="Where the deck lies.")
    frame: Frame = Field(description="The welded frame.")
    tongue: Tongue | None = Field(default=None, description="The tongue, for a ball behind the tow vehicle.")
    running_gear: RunningGear = Field(description="Axles, tyres, wheels.")
    wheel_boxes: tuple[WheelBox, ...] = Field(default=(), description="Boxes over the wheels, one side; mirrored.")
    jacks: tuple[Jack, ...] = Field(default=(), description="Jacks.")
    stands: tuple[Stand, ...] = Field(default=(), description="Stands when parked.")
    points: tuple[Point, ...] = Field(default=(), description="Lift, tie and anchor points.")
    low_points: tuple[LowPoint, ...] = Field(
        default=(), description="What hangs lowest, besides frame, jacks and drains."
    )
    chains: Chains = Field(description="Safety chains and breakaway.")
    wiring: Wiring = Field(description="Lamps and wiring.")
    welding: Welding = Field(description="Welding.")
    papers: Papers = Field(description="Marks and papers.")
    access: tuple[Line, ...] = Field(default=(), description="Steps, hatches and other things that need room.")

    @property
    def ahead(self) -> tuple[str, Measure]:
        """Underside of what lies ahead of datum A above the main-deck top (m), with its path: neck, tongue or rails."""
        if self.neck is not None:
            return "trailer.yaml neck.underside", self.neck.underside
        if self.tongue is not None:
            return "trailer.yaml tongue.underside", self.tongue.underside
        return "trailer.yaml frame.rail_underside", self.frame.rail_underside
