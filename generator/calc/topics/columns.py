"""Strength of a member that is pressed or pulled while it bends: AISC 360 (ASD), from memory. N, N m, m, Pa.

A first look, like `strength`: torsion, local buckling of slender walls and the joints at both ends are not in it.
"""

import numpy as np

from generator.calc.record import Floats, Quantity, Working, formula
from generator.calc.topics.strength import AISC, Steel


@formula("Elastic buckling stress of a pressed member", "F_e = 9.8696044*E/(K*L/r)**2", "Pa",
         f"{AISC}: E3.4; 9.8696044 is the square of pi")
def ELASTIC_STRESS(E: Floats, K: Floats, L: Floats, r: Floats) -> Floats:
    """Stress Pa at which a straight member of length m buckles."""
    return 9.8696044 * E / (K * L / r) ** 2


@formula("Stress of a pressed member that yields as it buckles", "F_i = F_y*0.658**(F_y/F_e)", "Pa", f"{AISC}: E3.2")
def STOCKY_STRESS(F_y: Floats, F_e: Floats) -> Floats:
    """Stress Pa, where the elastic one is at least 0.44 of the yield."""
    return F_y * 0.658 ** (F_y / F_e)


@formula("Stress of a slender pressed member", "F_i = 0.877*F_e", "Pa", f"{AISC}: E3.3")
def SLENDER_STRESS(F_e: Floats) -> Floats:
    """Stress Pa, where the elastic one is under 0.44 of the yield."""
    return 0.877 * F_e


@formula("Allowed push", "P_c = F_i*A/Omega_c", "N", f"{AISC}: E1")
def ALLOWED_PUSH(F_i: Floats, A: Floats, Omega_c: Floats) -> Floats:
    """Allowed force N of a pressed member."""
    return F_i * A / Omega_c


@formula("Allowed pull", "P_c = F_y*A/Omega_c", "N", f"{AISC}: D2.1; yielding of the whole section, no holes")
def ALLOWED_PULL(F_y: Floats, A: Floats, Omega_c: Floats) -> Floats:
    """Allowed force N of a pulled member."""
    return F_y * A / Omega_c


@formula("Elastic buckling load in the plane of bending", "P_e = 9.8696044*E*I/(K*L)**2", "N",
         f"{AISC}: appendix 8; 9.8696044 is the square of pi")
def BUCKLING_LOAD(E: Floats, I: Floats, K: Floats, L: Floats) -> Floats:
    """Force N."""
    return 9.8696044 * E * I / (K * L) ** 2


@formula("Moment with what the push adds to it", "M_r = M_1/max(1 - 1.6*P_r/P_e, 0)", "N*m", f"{AISC}: appendix 8, ASD")
def AMPLIFIED(M_1: Floats, P_r: Floats, P_e: Floats) -> Floats:
    """Moment N m of the bent member; without bound once the push nears the buckling load."""
    return M_1 / np.maximum(1 - 1.6 * P_r / P_e, 0.0)


@formula("Use of the member, much of it by force", "u = P_r/P_c + 8/9*M_r/M_c", "1", f"{AISC}: H1-1a")
def USE_BY_FORCE(P_r: Floats, P_c: Floats, M_r: Floats, M_c: Floats) -> Floats:
    """Use where the force takes a fifth of its strength or more."""
    return P_r / P_c + 8 / 9 * M_r / M_c


@formula("Use of the member, most of it by bending", "u = P_r/(2*P_c) + M_r/M_c", "1", f"{AISC}: H1-1b")
def USE_BY_BENDING(P_r: Floats, P_c: Floats, M_r: Floats, M_c: Floats) -> Floats:
    """Use where the force takes less than a fifth of its strength."""
    return P_r / (2 * P_c) + M_r / M_c


def push_allowed(w: Working, steel: Steel, length: Quantity, fixity: Quantity, omega: Quantity) -> Quantity:
    """Allowed push (N) of a member of this length (m), about its weaker axis."""
    s = steel.section
    strong = float(np.sqrt(s.inertia / s.area))
    radius = steel.number("r", min(strong, s.radius_y), "m")
    elastic = w(ELASTIC_STRESS, E=steel.modulus, K=fixity, L=length, r=radius)
    # E3 changes its rule where K L/r is 4.71 times the root of E over F_y: F_e there is 0.445 of F_y.
    if float(elastic.values[0]) * 4.71**2 >= np.pi**2 * float(steel.strength.values[0]):
        stress = w(STOCKY_STRESS, F_y=steel.strength, F_e=elastic)
    else:
        stress = w(SLENDER_STRESS, F_e=elastic)
    return w(ALLOWED_PUSH, F_i=stress, A=steel.dimension("A", s.area, "m2:section"), Omega_c=omega)


def used(w: Working, force: Quantity, allowed: Quantity, moment: Quantity, allowed_moment: Quantity) -> Quantity:
    """Use of a member under force and moment together, by the share the force takes."""
    given = {"P_r": force, "P_c": allowed, "M_r": moment, "M_c": allowed_moment}
    by_force = float(force.values[0]) >= 0.2 * float(allowed.values[0])
    return w(USE_BY_FORCE if by_force else USE_BY_BENDING, **given)
