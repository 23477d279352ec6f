"""Swaying of tow vehicle and trailer.

J. McDowell, "Kinetic Trailer Control", published MATLAB file, 2018: tractor and semitrailer (parameters and matrices
read; eigenvalues computed from his matrices).
A. de Souza Mendes, published MATLAB package of lateral vehicle dynamics, VehicleArticulatedLinear: tractor and
semitrailer (parameters and matrices read; eigenvalues computed from his matrices, tyre stiffness chosen).
Exact limits: a tow vehicle without end of mass leaves the trailer one swing of its own, its damping falling as one
over speed (ASME J. Appl. Mech. 24(4) 515, abstract read); without a trailer the car alone loses its way at a speed any
textbook gives.
ISO 9815 (definition from memory): damping from the peaks of a swing that dies away.
University laboratory, trailer alone on a lateral spring at its hitch (parameters read, result derived): it sways where
its yaw inertia passes mass times both distances from centre of mass, at any speed.
Trailers of 4 420 and 4 000 kg behind a pickup: independent programs (closed form and a Newton build), nothing
published.
"""

from types import SimpleNamespace

import numpy as np
import pytest
from road_sample import puller, towed

from generator.calc.record import sure
from generator.calc.topics import yaw as yw
from generator.calc.yaw_model import Combination, critical_speed, damping, roots, state_matrices

KMH = 1 / 3.6


def combination(m1, i1, a, b, h, c1, c2, m2, i2, d, axles):
    """One trial; axles as (behind the ball, N/rad)."""
    arms, c = (np.array([[x[n]] for x in axles], dtype=float) for n in (0, 1))
    return Combination(*(np.array([float(x)]) for x in (m1, i1, a, b, h, c1, c2, m2, i2, d)), arms, c)


def found(of, speed):
    return sorted(roots(of, np.array([speed]))[0], key=lambda r: (r.real, r.imag))


SEMI = combination(
    8994.4, 53314.6, 2.5359, 3.1977, 2.9691, 399010, 1031136, 27256.8, 729225, 6.2941, [(12.192, 1057244)]
)


def test_published_semitrailer_at_10_m_s():
    assert found(SEMI, 10.0) == pytest.approx([-9.8477, -8.3034, -6.7661, -0.8643], abs=6e-5)


def test_published_semitrailer_at_25_m_s():
    assert found(SEMI, 25.0) == pytest.approx([-4.5809, -2.2661 - 2.4100j, -2.2661 + 2.4100j, -1.1995], abs=6e-5)
    swing = found(SEMI, 25.0)[2]
    assert damping(SEMI, np.array([25.0]))[0] == pytest.approx(0.6850, abs=6e-5)
    assert swing.imag / (2 * np.pi) == pytest.approx(2.4100 / (2 * np.pi), abs=1e-5)
    assert abs(swing) / (2 * np.pi) == pytest.approx(0.5265, abs=6e-5)


def test_another_published_semitrailer():
    front, rear, front_laden, rear_laden, rear_of_trailer, wheelbase, length = 5200, 2400, 6000, 10000, 17000, 3.5, 7.7
    tractor = front + rear
    trailer = front_laden + rear_laden + rear_of_trailer - tractor
    a = rear / tractor * wheelbase
    d = rear_of_trailer / trailer * length
    of = combination(
        tractor, 46000, a, wheelbase - a, wheelbase - a - 0.3, 2e5, 4e5, trailer, 450000, d, [(length, 6e5)]
    )
    want = [-1.8102 - 0.9891j, -1.8102 + 0.9891j, -0.4638 - 1.6911j, -0.4638 + 1.6911j]
    assert found(of, 20.0) == pytest.approx(want, abs=6e-5)


def test_endless_mass_in_front():
    arms, c, m2, i2, d, u = (5.6, 6.5), 60e3, 3000.0, 12000.0, 5.4, 25.0
    of = combination(1e13, 1e13, 1.5, 1.9, 3.2, 1e5, 1e5, m2, i2, d, [(x, c) for x in arms])
    s1, s2 = c * sum(arms), c * sum(x * x for x in arms)
    swing = max(found(of, u), key=lambda r: r.imag)
    assert abs(swing) == pytest.approx(np.sqrt(s1 / (i2 + m2 * d**2)), rel=1e-6)
    assert -swing.real / abs(swing) == pytest.approx(s2 / (2 * u * np.sqrt(s1 * (i2 + m2 * d**2))), rel=1e-6)
    assert -swing.real / abs(swing) == pytest.approx(0.3287, abs=6e-5)
    assert abs(swing) / (2 * np.pi) == pytest.approx(0.4300, abs=6e-5)


def test_a_car_that_loses_its_way_alone():
    m, a, b, c1, c2 = 1400.0, 1.14, 1.33, 25000.0, 21000.0
    of = combination(m, 2000.0, a, b, b + 0.8, c1, c2, 1e-6, 1e-6, 1.0, [(1.5, 1e-3)])
    exact = np.sqrt(c1 * c2 * (a + b) ** 2 / (m * (a * c1 - b * c2)))
    assert exact == pytest.approx(63.35, abs=0.005)
    assert critical_speed(of, 40.0, 80.0)[0] == pytest.approx(exact, abs=2e-3)


MADE_UP = (2500, 5500, 1.5, 1.9, 3.2, 110e3, 130e3, 4000, 22000)


def made_up(d=5.45):
    return combination(*MADE_UP, d, [(5.66, 60e3), (6.53, 60e3)])


@pytest.mark.parametrize(("kmh", "zeta"), [(60, 0.2481), (80, 0.1133), (100, 0.0381), (120, -0.0021)])
def test_damping_of_a_made_up_set(kmh, zeta):
    assert damping(made_up(), np.array([kmh * KMH]))[0] == pytest.approx(zeta, abs=6e-5)


@pytest.mark.parametrize(("d", "kmh"), [(5.45, 118.50), (5.9, 67.44)])
def test_speed_without_damping_of_a_made_up_set(d, kmh):
    assert critical_speed(made_up(d), 40 * KMH, 200 * KMH)[0] / KMH == pytest.approx(kmh, abs=0.006)


@pytest.mark.parametrize(("kmh", "zeta"), [(80, 0.1133), (100, 0.0381)])
def test_damping_from_the_peaks_of_a_swing(kmh, zeta):
    """The swing left by a knock, stepped by the exponential of the state matrix; peaks read off after the first."""
    mass, force = state_matrices(made_up(), np.array([kmh * KMH]))
    values, vectors = np.linalg.eig(np.linalg.solve(mass[0], force[0]))
    t = np.linspace(2.0, 14.0, 120_001)
    start = np.linalg.solve(vectors, np.array([0.0, 0.0, 0.1, 0.0]))
    phi = np.real((vectors[3] * start) @ np.exp(np.outer(values, t)))
    turns = np.flatnonzero(np.diff(np.sign(np.diff(phi)))) + 1
    peaks = phi[turns]
    amplitudes = np.abs(np.diff(peaks))[:6]
    r = np.mean(amplitudes[:-1] / amplitudes[1:])
    assert np.log(r) / np.sqrt(np.pi**2 + np.log(r) ** 2) == pytest.approx(zeta, abs=2e-3)


MASS, X_H, X_A = 4420.0, -1.4, 3.8
CENTRE = (4000.0 * 3.10 + 420.0 * 3.80) / MASS
INERTIA = MASS * 7.2**2 / 12 * 1.15


def behind_a_pickup(x_g, inertia=INERTIA, tow=7.0, trailer=6.0):
    """Pickup of 3 000 kg, 55 % on its front axle, ball 1.30 m behind the rear one; trailer axles at 4.78 and 5.62 m."""
    group = MASS * (x_g - X_H) / (X_A - X_H)
    state = towed(MASS, x_g, X_H, X_A, 1.6, 0.5, inertia=inertia, axles=(group / 2, group / 2))
    ties = yw.Ties(sure("c_t", tow, "1"), sure("c_r", trailer, "1"), sure("i_1", 1.05, "1"))
    stations = SimpleNamespace(axle_stations=(X_H + 4.78, X_H + 5.62))
    return yw.swaying(stations, state, puller(1650.0, 1350.0, 3.99, 1.30), ties).combination()


def zeta(of, kmh):
    return damping(of, np.array([kmh * KMH]))[0]


def index(x_g, inertia=INERTIA):
    return yw.YAW_INDEX.of(I_z=inertia, W=MASS, x_g=x_g, x_h=X_H, x_a=X_A)


@pytest.mark.parametrize(("kmh", "value"), [(60, 0.37623), (80, 0.26103), (100, 0.19464), (120, 0.15243)])
def test_an_ordinary_trailer_is_damped(kmh, value):
    assert zeta(behind_a_pickup(CENTRE), kmh) == pytest.approx(value, abs=2e-5)


def test_an_ordinary_trailer_has_no_speed_without_damping_though_its_index_is_over_one():
    assert critical_speed(behind_a_pickup(CENTRE), 40 * KMH, 400 * KMH)[0] == 400 * KMH
    assert index(CENTRE) == pytest.approx(1.7174, abs=6e-5)


def test_less_load_on_the_ball_sways_sooner():
    assert zeta(behind_a_pickup(3.176), 100) == pytest.approx(0.19099, abs=2e-5)
    assert index(3.176) == pytest.approx(1.7398, abs=6e-5)
    tail_heavy = behind_a_pickup(3.54)
    assert zeta(tail_heavy, 100) == pytest.approx(0.010076, abs=2e-5)
    assert critical_speed(tail_heavy, 40 * KMH, 200 * KMH)[0] / KMH == pytest.approx(103.39, abs=0.01)
    assert index(3.54) == pytest.approx(3.8680, abs=1e-4)


def test_more_inertia_and_softer_tyres_sway_sooner():
    heavy_ends = behind_a_pickup(3.54, INERTIA * 1.3)
    assert critical_speed(heavy_ends, 40 * KMH, 200 * KMH)[0] / KMH == pytest.approx(77.064, abs=0.01)
    x_g = X_H + 5.2 * (1 - 0.08)
    soft = behind_a_pickup(x_g, INERTIA * 1.2, 6.0, 4.0)
    assert critical_speed(soft, 40 * KMH, 200 * KMH)[0] / KMH == pytest.approx(78.397, abs=0.01)


def test_index_of_the_made_up_set():
    u = (5.66 + 6.53) / 2
    value = yw.YAW_INDEX.of(I_z=22000.0, W=4000.0, x_g=5.45, x_h=0.0, x_a=u)
    assert value == pytest.approx(1.5646, abs=6e-5)


def alone_on_a_spring(inertia_ratio):
    """Greatest real part of the roots, and the swing, of the laboratory's trailer: hitch offset and heading."""
    m, length, u, c = 1800 / 2.2, 7 * 0.3048, 22.0, 210 * 4.4482216152605 * 180 / np.pi
    b = length / 1.85
    a = length - b
    inertia, k = inertia_ratio * m * a * b, m * (2 * np.pi) ** 2
    mass = np.array([[m, -m * a], [0.0, inertia]])
    slip = np.array([1 / u, -length / u])
    rates = np.linalg.solve(mass, np.array([-c * slip, b * c * slip]))
    shifts = np.linalg.solve(mass, np.array([[-k, c], [-k * a, -b * c]]))
    found = np.linalg.eigvals(np.block([[rates, shifts], [np.eye(2), np.zeros((2, 2))]]))
    value = yw.YAW_INDEX.of(I_z=inertia, W=m, x_g=a, x_h=0.0, x_a=length)
    return found.real.max(), np.abs(found[np.argmax(found.real)].imag), value, m * a * b


def test_an_index_of_one_is_the_edge_for_a_trailer_alone_on_a_spring():
    real, swing, value, product = alone_on_a_spring(1.0)
    assert product == pytest.approx(925.02, abs=0.006)
    assert value == pytest.approx(1.0, rel=1e-12)
    assert real == pytest.approx(0.0, abs=1e-9)
    assert swing == pytest.approx(8.5461, abs=6e-5)


@pytest.mark.parametrize(("ratio", "real"), [(0.8, -0.7252), (1.2, 0.3428)])
def test_beyond_that_edge_it_sways_by_itself(ratio, real):
    found, _, value, _ = alone_on_a_spring(ratio)
    assert found == pytest.approx(real, abs=6e-5)
    assert value == pytest.approx(ratio, rel=1e-12)


def test_stopped_by_nonsense_it_says_nothing():
    assert np.isnan(zeta(combination(0, 0, 1, 1, 1, 1e5, 1e5, 0, 0, 1, [(1.5, 1e5)]), 80))
    assert np.isnan(zeta(made_up(float("nan")), 80))
    assert np.isnan(critical_speed(made_up(float("nan")), 10.0, 50.0)[0])
