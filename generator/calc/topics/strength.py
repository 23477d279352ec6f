"""Strength of one steel member in bending, shear and bearing on its web: AISC 360 (ASD), from memory. N, N m, m, Pa.

A first look: it may ask for a review, it never passes a frame. First yield (0.6 F_y S) is not mixed with these rules.
Section properties that the table does not hold (torsion, warping) come from plates without fillets, a little low.
"""

import numpy as np

from generator.calc.record import Floats, Formula, Quantity, Working, combine, formula, sure
from generator.calc.trials import CONFIDENCES
from generator.records import dataclass
from generator.reference.types import Section

AISC = "AISC 360 (ASD), from memory"


@formula("Plastic moment", "M_p = F_y*Z", "N*m", f"{AISC}: F2.1")
def PLASTIC(F_y: Floats, Z: Floats) -> Floats:
    """Plastic moment N m from yield Pa and plastic modulus m3."""
    return F_y * Z


@formula("Slenderness that steel of this yield sets", "root = sqrt(E/F_y)", "1", f"{AISC}: table B4.1b")
def ROOT(E: Floats, F_y: Floats) -> Floats:
    """Square root of modulus over yield."""
    return np.sqrt(E / F_y)


@formula("Local buckling of the flange",
         "M_f = min(M_p, M_p - (M_p - 0.7*F_y*S)*(b_f/(2*t_f) - 0.38*root)/(0.62*root))", "N*m", f"{AISC}: F3.1")
def FLANGE(M_p: Floats, F_y: Floats, S: Floats, b_f: Floats, t_f: Floats, root: Floats) -> Floats:
    """Moment N m at which the flange of a rolled shape buckles; valid to b/2t = root."""
    return np.minimum(M_p, M_p - (M_p - 0.7 * F_y * S) * (b_f / (2 * t_f) - 0.38 * root) / (0.62 * root))


@formula("Local buckling of a tube's flange",
         "M_f = min(M_p, M_p - (M_p - F_y*S)*(3.57*(b_f/t_f - 3)/root - 4))", "N*m", f"{AISC}: F7.2")
def TUBE_FLANGE(M_p: Floats, F_y: Floats, S: Floats, b_f: Floats, t_f: Floats, root: Floats) -> Floats:
    """Moment N m at which the flange of a tube buckles; valid to b/t = 1.40 root."""
    return np.minimum(M_p, M_p - (M_p - F_y * S) * (3.57 * (b_f / t_f - 3) / root - 4))


@formula("Local buckling of a tube's web",
         "M_w = min(M_p, M_p - (M_p - F_y*S)*(0.305*(d/t_w - 3)/root - 0.738))", "N*m", f"{AISC}: F7.3")
def TUBE_WEB(M_p: Floats, F_y: Floats, S: Floats, d: Floats, t_w: Floats, root: Floats) -> Floats:
    """Moment N m at which the web of a tube buckles."""
    return np.minimum(M_p, M_p - (M_p - F_y * S) * (0.305 * (d / t_w - 3) / root - 0.738))


@formula("Length without bracing up to which nothing is lost", "L_p = 1.76*r_y*root", "m", f"{AISC}: F2.2")
def BRACED(r_y: Floats, root: Floats) -> Floats:
    """Length m."""
    return 1.76 * r_y * root


@formula("Torsion constant, plates without fillets", "J = (2*b_f*t_f**3 + h_o*t_w**3)/3", "m4",
         "torsion of thin plates; a little low, on the safe side")
def TORSION(b_f: Floats, t_f: Floats, h_o: Floats, t_w: Floats) -> Floats:
    """Torsion constant m4."""
    return (2 * b_f * t_f**3 + h_o * t_w**3) / 3


@formula("Warping over sideways bending, channel of plates",
         "k_w = h_o*sqrt(t_f*b**3/12*(3*b*t_f + 2*h_o*t_w)/(6*b*t_f + h_o*t_w)/A)/r_y", "m",
         "square root of C_w/I_y, thin plates; b is the flange to the middle of the web")
def CHANNEL_WARPING(h_o: Floats, t_f: Floats, b: Floats, t_w: Floats, A: Floats, r_y: Floats) -> Floats:
    """Square root m of the warping constant over the inertia about the web."""
    plates = t_f * b**3 / 12 * (3 * b * t_f + 2 * h_o * t_w) / (6 * b * t_f + h_o * t_w)
    return h_o * np.sqrt(plates / A) / r_y


@formula("Warping over sideways bending, I shape", "k_w = h_o/2", "m", "square root of C_w/I_y")
def WARPING(h_o: Floats) -> Floats:
    """Square root m of the warping constant over the inertia about the web."""
    return h_o / 2


@formula("Radius that governs sideways buckling", "r_ts = r_y*sqrt(A*k_w/S)", "m", f"{AISC}: F2.7")
def BUCKLING_RADIUS(r_y: Floats, A: Floats, k_w: Floats, S: Floats) -> Floats:
    """Radius m: its square is the square root of I_y C_w over S."""
    return r_y * np.sqrt(A * k_w / S)


@formula("Factor of the shape", "c = h_o/(2*k_w)", "1", f"{AISC}: F2.8; 1 for an I shape")
def SHAPE(h_o: Floats, k_w: Floats) -> Floats:
    """Half the flanges' distance over the square root of C_w/I_y."""
    return h_o / (2 * k_w)


@formula("Length without bracing from which buckling is elastic",
         "L_r = 1.95*r_ts*E/(0.7*F_y)*sqrt(J*c/(S*h_o) + sqrt((J*c/(S*h_o))**2 + 6.76*(0.7*F_y/E)**2))", "m",
         f"{AISC}: F2.6")
def ELASTIC_FROM(r_ts: Floats, E: Floats, F_y: Floats, J: Floats, c: Floats, S: Floats, h_o: Floats) -> Floats:
    """Length m."""
    stiff = J * c / (S * h_o)
    return 1.95 * r_ts * E / (0.7 * F_y) * np.sqrt(stiff + np.sqrt(stiff**2 + 6.76 * (0.7 * F_y / E) ** 2))


@formula("Sideways buckling, part of the section yielding",
         "M_l = min(M_p, M_p - (M_p - 0.7*F_y*S)*(L_b - L_p)/(L_r - L_p))", "N*m", f"{AISC}: F2.2, C_b = 1")
def SIDEWAYS(M_p: Floats, F_y: Floats, S: Floats, L_b: Floats, L_p: Floats, L_r: Floats) -> Floats:
    """Moment N m for an unbraced length from L_p to L_r; the plastic moment below."""
    return np.minimum(M_p, M_p - (M_p - 0.7 * F_y * S) * (L_b - L_p) / (L_r - L_p))


@formula("Sideways buckling, elastic",
         "M_l = min(M_p, S*9.8696044*E/(L_b/r_ts)**2*sqrt(1 + 0.078*J*c/(S*h_o)*(L_b/r_ts)**2))", "N*m",
         f"{AISC}: F2.4, C_b = 1; 9.8696044 is the square of pi")
def SIDEWAYS_ELASTIC(M_p: Floats, S: Floats, E: Floats, L_b: Floats, r_ts: Floats, J: Floats, c: Floats,
                     h_o: Floats) -> Floats:
    """Moment N m for an unbraced length over L_r."""
    slender = (L_b / r_ts) ** 2
    return np.minimum(M_p, S * 9.8696044 * E / slender * np.sqrt(1 + 0.078 * J * c / (S * h_o) * slender))


@formula("Allowed moment", "M_a = M_n/Omega", "N*m", f"{AISC}: F1")
def ALLOWED_MOMENT(M_n: Floats, Omega: Floats) -> Floats:
    """Allowed moment N m."""
    return M_n / Omega


@formula("Allowed shear", "V_a = 0.6*F_y*A_w*C_v/Omega_v", "N", f"{AISC}: G2, G4")
def ALLOWED_SHEAR(F_y: Floats, A_w: Floats, C_v: Floats, Omega_v: Floats) -> Floats:
    """Allowed shear N from yield Pa and web area m2."""
    return 0.6 * F_y * A_w * C_v / Omega_v


@formula("Share of a web's strength left by buckling in shear", "C_v = min(1, 1.1*sqrt(k_v)*root/slender)", "1",
         f"{AISC}: G2.1")
def SHEAR_BUCKLING(k_v: Floats, root: Floats, slender: Floats) -> Floats:
    """Share of the web's shear strength."""
    return np.minimum(1.0, 1.1 * np.sqrt(k_v) * root / slender)


@formula("Web yielding over a bearing", "R_y = webs*F_y*t_w*(spread*k + l_b)/1.5", "N", f"{AISC}: J10.2")
def WEB_YIELD(webs: Floats, F_y: Floats, t_w: Floats, spread: Floats, k: Floats, l_b: Floats) -> Floats:
    """Allowed bearing force N; `spread` 5 inside, 2.5 near an end."""
    return webs * F_y * t_w * (spread * k + l_b) / 1.5


@formula("Web crippling over a bearing",
         "R_c = webs*part*t_w**2*(1 + 3*l_b/d*(t_w/t_f)**1.5)*sqrt(E*F_y*t_f/t_w)/2", "N", f"{AISC}: J10.3")
def WEB_CRIPPLING(webs: Floats, part: Floats, t_w: Floats, l_b: Floats, d: Floats, t_f: Floats, E: Floats,
                  F_y: Floats) -> Floats:
    """Allowed bearing force N; `part` 0.8 inside, 0.4 near an end."""
    return webs * part * t_w**2 * (1 + 3 * l_b / d * (t_w / t_f) ** 1.5) * np.sqrt(E * F_y * t_f / t_w) / 2


@formula("Allowed force on the web", "R_a = min(R_y, R_c)", "N", "the lesser of both")
def BEARING(R_y: Floats, R_c: Floats) -> Floats:
    """The lesser force N."""
    return np.minimum(R_y, R_c)


@formula("Least of both strengths", "M_n = min(M_l, M_f)", "N*m", f"{AISC}: F1")
def LEAST(M_l: Floats, M_f: Floats) -> Floats:
    """The lesser moment N m of an I shape."""
    return np.minimum(M_l, M_f)


@formula("Least of both strengths", "M_n = min(M_f, M_w)", "N*m", f"{AISC}: F1")
def TUBE_LEAST(M_f: Floats, M_w: Floats) -> Floats:
    """The lesser moment N m of a tube."""
    return np.minimum(M_f, M_w)


@dataclass(frozen=True, slots=True, eq=False)
class Steel:
    """A section in its steel, as quantities: yield and modulus of elasticity Pa, safety factors.

    `omega_rolled` is the factor on the shear of a rolled I shape with a stout web.
    """

    section: Section
    strength: Quantity
    modulus: Quantity
    omega: Quantity
    omega_rolled: Quantity

    def dimension(self, symbol: str, value: float, unit: str) -> Quantity:
        """One of the section's numbers (SI)."""
        return sure(symbol, value, unit, CONFIDENCES[self.section.confidence], origin=self.section.name)

    def number(self, symbol: str, value: float, unit: str) -> Quantity:
        """A number worked from the section or chosen by a rule, without a place of its own."""
        return sure(symbol, value, unit, CONFIDENCES[self.section.confidence])


def unsupported(section: Section, yield_strength: float, modulus: float) -> str | None:
    """Why the rules here do not cover a section in a steel (Pa); None if they do."""
    root = float(np.sqrt(modulus / yield_strength))
    if section.shape in ("I", "C"):
        flange = section.width / (2 if section.shape == "I" else 1) / section.flange
        limit = root if section.shape == "I" else 0.38 * root
        web = (section.depth - 2 * section.flange) / section.web / (3.76 * root)
        return None if flange <= limit and web <= 1.0 else f"strength of slender section {section.name}"
    if section.shape == "HSS":
        return None if section.width / section.flange - 3 <= 1.40 * root else f"strength of slender tube {section.name}"
    return f"strength rules for section {section.name}"


def moment_allowed(w: Working, steel: Steel, free: Quantity) -> Quantity:
    """Allowed moment (N m) of a member whose compression flange is free over a length (m)."""
    s = steel.section
    plastic = w(PLASTIC, F_y=steel.strength, Z=steel.dimension("Z", s.plastic, "m3:section"))
    root = w(ROOT, E=steel.modulus, F_y=steel.strength)
    modulus = steel.dimension("S", s.modulus, "m3:section")
    common = {"M_p": plastic, "F_y": steel.strength, "S": modulus, "root": root}
    width, flange, web = (steel.dimension(n, v, "m") for n, v in (("b_f", s.width), ("t_f", s.flange), ("t_w", s.web)))
    if s.shape == "HSS":
        side = w(TUBE_WEB, d=steel.dimension("d", s.depth, "m"), t_w=web, **common)
        least = w(TUBE_LEAST, M_f=w(TUBE_FLANGE, b_f=width, t_f=flange, **common), M_w=side)
    else:
        least = _sideways(w, steel, plastic, root, modulus, free)
        if s.shape == "I":
            least = w(LEAST, M_l=least, M_f=w(FLANGE, b_f=width, t_f=flange, **common))
    return w(ALLOWED_MOMENT, M_n=least.named("M_n"), Omega=steel.omega)


def _sideways(w: Working, steel: Steel, plastic: Quantity, root: Quantity, modulus: Quantity, free: Quantity,
              ) -> Quantity:
    """Moment (N m) at which an I shape or channel buckles sideways."""
    s = steel.section
    radius, area = steel.dimension("r_y", s.radius_y, "m"), steel.dimension("A", s.area, "m2:section")
    width, flange, web = (steel.dimension(n, v, "m") for n, v in (("b_f", s.width), ("t_f", s.flange), ("t_w", s.web)))
    between = steel.number("h_o", s.depth - s.flange, "m")
    unbraced = float(free.values[0])
    braced = w(BRACED, r_y=radius, root=root)
    if unbraced <= float(braced.values[0]):
        return w.procedure("Sideways buckling", "The free length is no more than L_p: the plastic moment stands.",
                           f"{AISC}: F2.2", combine("M_l", plastic.values, "N*m", [plastic, free, braced]),
                           [free, braced])
    torsion = w(TORSION, b_f=width, t_f=flange, h_o=between, t_w=web)
    if s.shape == "I":
        warping = w(WARPING, h_o=between)
    else:
        to_middle = steel.number("b", s.width - s.web / 2, "m")
        warping = w(CHANNEL_WARPING, h_o=between, t_f=flange, b=to_middle, t_w=web, A=area, r_y=radius)
    shape = w(SHAPE, h_o=between, k_w=warping)
    buckling = w(BUCKLING_RADIUS, r_y=radius, A=area, k_w=warping, S=modulus)
    common = {"J": torsion, "c": shape, "S": modulus, "h_o": between, "r_ts": buckling, "E": steel.modulus}
    elastic = w(ELASTIC_FROM, F_y=steel.strength, **common)
    if unbraced > float(elastic.values[0]):
        return w(SIDEWAYS_ELASTIC, M_p=plastic, L_b=free, **common)
    return w(SIDEWAYS, M_p=plastic, F_y=steel.strength, S=modulus, L_b=free, L_p=braced, L_r=elastic)


def shear_allowed(w: Working, steel: Steel) -> Quantity:
    """Allowed shear (N) of a member."""
    s = steel.section
    root = w(ROOT, E=steel.modulus, F_y=steel.strength)
    if s.shape == "HSS":
        height, factor, plate = s.depth - 3 * s.web, 5.0, 2 * (s.depth - 3 * s.web) * s.web
    else:
        height, factor, plate = s.depth - 2 * s.flange, 5.34, s.depth * s.web
    slender, area = height / s.web, steel.number("A_w", plate, "m2:section")
    if s.shape == "I" and slender <= 2.24 * float(root.values[0]):
        share, omega = steel.number("C_v", 1.0, "1"), steel.omega_rolled
    else:
        omega = steel.omega
        share = w(SHEAR_BUCKLING, k_v=steel.number("k_v", factor, "1"), root=root,
                  slender=steel.number("slender", slender, "1"))
    return w(ALLOWED_SHEAR, F_y=steel.strength, A_w=area, C_v=share, Omega_v=omega)


def bearing_allowed(w: Working, steel: Steel, bearing: Quantity, is_end: bool) -> tuple[Quantity, Formula]:
    """Allowed bearing force (N) on the web without a stiffener, over a bearing length (m), and the rule for it."""
    s = steel.section
    tube = s.shape == "HSS"
    # The table holds no fillet: the flange alone, or three half walls of a tube, is on the safe side.
    fillet = steel.number("k", 1.5 * s.flange if tube else s.flange, "m")
    webs, web = steel.number("webs", 2.0 if tube else 1.0, "1"), steel.dimension("t_w", s.web, "m")
    yielded = w(WEB_YIELD, webs=webs, F_y=steel.strength, t_w=web, k=fillet, l_b=bearing,
                spread=steel.number("spread", 2.5 if is_end else 5.0, "1"))
    depth = s.depth - 3 * s.web if tube else s.depth
    crippled = w(WEB_CRIPPLING, webs=webs, part=steel.number("part", 0.4 if is_end else 0.8, "1"), t_w=web,
                 l_b=bearing, d=steel.dimension("d", depth, "m"), t_f=steel.dimension("t_f", s.flange, "m"),
                 E=steel.modulus, F_y=steel.strength)
    rule = WEB_YIELD if float(yielded.values[0]) <= float(crippled.values[0]) else WEB_CRIPPLING
    return w(BEARING, R_y=yielded, R_c=crippled), rule
