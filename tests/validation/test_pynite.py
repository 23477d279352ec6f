"""PyNiteFEA 3.2 (general three-dimensional frame program) against our beam: stands, a stepped girder, and a trailer
on trailing-arm springs. Reactions and nodal movement to 1e-7 relative, rigid arms (stiff members there) to 1e-5.

Traps of that program: section order is A, Iy, Iz, J; bending in the vertical plane is 'Mz' and sags negative; a member
is split at every node that lies on it, so a spindle stands below the beam, never on its line.
"""

import numpy as np
import pytest

from generator.calc.beam import Girder, at, loads, solve

pynite = pytest.importorskip("Pynite")
COMBO = "Combo 1"
E = 200e9


def frame(nodes):
    """A model with nodes (name: x, y); supports and members are the caller's."""
    model = pynite.FEModel3D()
    model.add_material("steel", E, 77e9, 0.3, 7850.0)
    for name, (x, y) in nodes.items():
        model.add_node(name, x, y, 0.0)
    return model


def member(model, name, a, b, ei):
    model.add_section(name, 0.05, ei / E, ei / E, 1e-5)
    model.add_member(name, a, b, "steel", name)


def line(model, x0, x1, w0, w1, joints):
    """A line load over members that run between consecutive joints (name, x)."""
    for (_, a), (_, b), number in zip(joints, joints[1:], range(len(joints)), strict=False):
        lo, hi = max(a, x0), min(b, x1)
        if hi > lo:
            at_lo, at_hi = (w0 + (w1 - w0) * (x - x0) / (x1 - x0) for x in (lo, hi))
            model.add_member_dist_load(f"m{number}", "FY", -at_lo, -at_hi, lo - a, hi - a)


def test_four_stands():
    """Reactions on four rigid stands 0.3, 2.6, 5.0, 7.0 m; tip movement."""
    ei, xs = E * 2.56e-5, (-1.4, -0.9, 0.0, 0.3, 1.0, 2.6, 5.0, 5.2, 7.0, 7.2)
    joints = [(f"n{i}", x) for i, x in enumerate(xs)]
    model = frame({n: (x, 0.0) for n, x in joints})
    for i in range(len(joints) - 1):
        member(model, f"m{i}", f"n{i}", f"n{i + 1}", ei)
    for x in (0.3, 2.6, 5.0, 7.0):
        model.def_support(f"n{xs.index(x)}", x == 0.3, True, True, True, False, False)
    rows = [(0.0, 7.2, 4500.0, 4500.0), (-1.4, 0.0, 300.0, 300.0), (5.2, 7.2, 0.0, 1500.0)]
    for row in rows:
        line(model, *row, joints)
    model.add_node_load("n4", "FY", -2500.0)
    model.add_node_load("n1", "FY", -600.0)
    model.analyze()
    b = solve(Girder(-1.4, 7.2, ((-1.4, ei),)), [at(f"{x}", x) for x in (0.3, 2.6, 5.0, 7.0)],
              [loads([(1.0, 2500.0), (-0.9, 600.0)], rows)])[0]
    theirs = [model.nodes[f"n{xs.index(x)}"].RxnFY[COMBO] for x in (0.3, 2.6, 5.0, 7.0)]
    assert b.reactions == pytest.approx(theirs, rel=1e-7)
    assert b.reactions == pytest.approx([8730.7, 12073.0, 11109.0, 5507.4], abs=0.5)
    tip = model.nodes["n9"].DY[COMBO]
    assert b.deflection(np.array([7.2]))[0] == pytest.approx(tip, rel=1e-6) == pytest.approx(3.5417e-5, abs=5e-10)


def test_stepped_girder_on_a_sinking_support():
    """Stiffness changes at 2 m; the middle of three supports is held 4 mm low."""
    joints = [("a", 0.0), ("b", 2.0), ("c", 3.5), ("d", 8.0)]
    model = frame({n: (x, 0.0) for n, x in joints})
    for i, ei in enumerate((2.0e6, 5.0e6, 5.0e6)):
        member(model, f"m{i}", joints[i][0], joints[i + 1][0], ei)
    for n in "acd":
        model.def_support(n, n == "a", True, True, True, False, False)
    model.def_node_disp("c", "DY", -0.004)
    line(model, 0.0, 8.0, 3000.0, 1000.0, joints)
    model.analyze()
    supports = [at("a", 0.0), at("c", 3.5, imposed=-0.004), at("d", 8.0)]
    b = solve(Girder(0.0, 8.0, ((0.0, 2.0e6), (2.0, 5.0e6))), supports, [loads(lines=[(0.0, 8.0, 3000.0, 1000.0)])])[0]
    assert b.reactions == pytest.approx([model.nodes[n].RxnFY[COMBO] for n in "acd"], rel=1e-7)
    assert b.deflection(np.array([2.0]))[0] == pytest.approx(model.nodes["b"].DY[COMBO], rel=1e-7)
    assert b.moment(np.array([3.5]))[0] == pytest.approx(-model.members["m1"].moment("Mz", 1.5, COMBO), rel=1e-6)


@pytest.mark.parametrize(("raised", "axles", "hitch"), [
    (0.0, (15417.0, 14503.0, 13743.0), 17117.0), (0.05, (14019.0, 14415.0, 14951.0), 17396.0),
])
def test_trailer_on_trailing_arms(raised, axles, hitch):
    """Three arms of 0.15115 m on springs of 260 kN/m, the ball 0 or 50 mm above its level height."""
    ei, arm, k, level = 1.72e7, 0.15115, 260000.0, 0.055749
    spindles = (5.2, 6.1, 7.0)
    xs = sorted({-3.2, -2.3, 0.0, 2.0, 9.2, *(x - arm for x in spindles)})
    joints = [(f"n{i}", x) for i, x in enumerate(xs)]
    names = {x: n for n, x in joints}
    nodes = {n: (x, 0.0) for n, x in joints} | {f"s{i}": (x, -0.4) for i, x in enumerate(spindles)}
    model = frame(nodes)
    for i in range(len(joints) - 1):
        member(model, f"m{i}", f"n{i}", f"n{i + 1}", ei)
    for i, x in enumerate(spindles):
        member(model, f"arm{i}", names[x - arm], f"s{i}", 1e9)
        model.def_support(f"s{i}", False, False, True, True, False, False)
        model.def_support_spring(f"s{i}", "DY", k)
    model.def_support(names[-2.3], True, True, True, True, False, False)
    model.def_node_disp(names[-2.3], "DY", -(level - raised))
    rows = [(0.0, 9.2, 5500.0, 5500.0), (-3.2, 0.0, 2400.0, 2400.0)]
    for row in rows:
        line(model, *row, joints)
    model.add_node_load(names[2.0], "FY", -2500.0)
    model.analyze()
    springs = [at(f"axle {i}", x - arm, arm, k) for i, x in enumerate(spindles)]
    b = solve(Girder(-3.2, 9.2, ((-3.2, ei),)), [at("hitch", -2.3, imposed=-(level - raised)), *springs],
              [loads([(2.0, 2500.0)], rows)])[0]
    theirs = [-k * model.nodes[f"s{i}"].DY[COMBO] for i in range(3)]
    assert b.reactions[1:] == pytest.approx(theirs, rel=1e-5)
    assert b.reactions[0] == pytest.approx(model.nodes[names[-2.3]].RxnFY[COMBO], rel=1e-5)
    assert b.reactions == pytest.approx([hitch, *axles], abs=0.5)
    root = -model.members[f"m{xs.index(0.0) - 1}"].moment("Mz", 2.3, COMBO)
    assert b.moment(np.array([0.0]))[0] == pytest.approx(root, rel=1e-5)
