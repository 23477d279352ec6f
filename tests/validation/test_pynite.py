"""PyNiteFEA 3.2 (general three-dimensional frame program) against our beam: stands, a stepped girder, and a trailer
on trailing-arm springs. Reactions and nodal movement to 1e-7 relative, rigid arms (stiff members there) to 1e-5.

Traps of that program: section order is A, Iy, Iz, J; bending in the vertical plane is 'Mz' and sags negative; a member
is split at every node that lies on it, so a spindle stands below the beam, never on its line.
"""

import numpy as np
import pytest

from generator.calc.beam import Girder, Support, at, diagram, loads, one_way, solve
from generator.calc.topics.leaf import equalised

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


TRAILER = [(0.0, 7.2, 4500.0, 4500.0), (-1.4, 0.0, 300.0, 300.0), (5.2, 7.2, 0.0, 1500.0)]
SMALL = [(1.0, 2500.0), (-0.9, 600.0)]


def trailer(xs, held, up=(), low=()):
    """The scratch leaf trailer on rigid supports at `held`, pushed up by forces `up`, some supports `low`."""
    joints = [(f"n{i}", x) for i, x in enumerate(xs)]
    model = frame({n: (x, 0.0) for n, x in joints})
    for i in range(len(joints) - 1):
        member(model, f"m{i}", f"n{i}", f"n{i + 1}", E * 2.56e-5)
    for x in held:
        model.def_support(f"n{xs.index(x)}", x == held[0], True, True, True, False, False)
    for x, drop in low:
        model.def_node_disp(f"n{xs.index(x)}", "DY", -drop)
    for row in TRAILER:
        line(model, *row, joints)
    for x, force in [*((x, -f) for x, f in SMALL), *up]:
        model.add_node_load(f"n{xs.index(x)}", "FY", force)
    model.analyze()
    return model


def test_equalised_tandem():
    """Hitch and three hangers whose forces stay 1 : 2 : 1. There: two of the forces as loads, the third a support; the
    line through the supports is then turned about the hitch until the weighted movement of the hangers is nil."""
    terms = equalised((3.38, 4.22), 0.66)
    hangers = [round(x, 6) for x, _, _ in terms]
    shares = np.array([share for _, share, _ in terms])
    group = Support("group", tuple((x, share, 0.0) for x, share in zip(hangers, shares, strict=True)))
    b = solve(Girder(-1.4, 7.2, ((-1.4, E * 2.56e-5),)), [at("hitch", -1.4), group], [loads(SMALL, TRAILER)])[0]
    forces = b.reactions[1] * shares
    xs = sorted({-1.4, -0.9, 0.0, 1.0, 5.2, 7.2, *hangers})
    model = trailer(xs, (-1.4, hangers[0]), list(zip(hangers[1:], forces[1:], strict=True)))
    assert model.nodes["n0"].RxnFY[COMBO] == pytest.approx(b.reactions[0], rel=1e-7)
    assert model.nodes[f"n{xs.index(hangers[0])}"].RxnFY[COMBO] == pytest.approx(forces[0], rel=1e-7)
    w = np.array([model.nodes[f"n{i}"].DY[COMBO] for i in range(len(xs))])
    at_hangers = np.array([w[xs.index(x)] for x in hangers])
    turn = (shares @ at_hangers) / (shares @ (np.array(hangers) + 1.4))
    assert diagram(b).deflection(np.array(xs)) == pytest.approx(w - turn * (np.array(xs) + 1.4), rel=1e-7, abs=1e-10)
    middle = -model.members[f"m{xs.index(hangers[1])}"].moment("Mz", 0.0, COMBO)
    assert diagram(b).moment_ahead(np.array([hangers[1]]))[0] == pytest.approx(middle, rel=1e-7)


def test_jacked_leaf_trailer():
    """Jacks at -0.6 in place of the hitch: 3 202.3 N; the same hangers as loads there."""
    group = Support("group", equalised((3.38, 4.22), 0.66))
    b = solve(Girder(-1.4, 7.2, ((-1.4, E * 2.56e-5),)), [at("jack", -0.6), group], [loads(SMALL, TRAILER)])[0]
    xs = sorted({-1.4, -0.9, -0.6, 0.0, 1.0, 3.05, 3.80, 4.55, 5.2, 7.2})
    model = trailer(xs, (-0.6, 3.05), [(3.80, b.reactions[1] / 2), (4.55, b.reactions[1] / 4)])
    assert model.nodes[f"n{xs.index(-0.6)}"].RxnFY[COMBO] == pytest.approx(b.reactions[0], rel=1e-7)
    assert b.reactions[0] == pytest.approx(3202.3, abs=0.05)


def test_stands_that_only_push_with_one_low():
    """The stand at 2.6 m 10 mm low lifts: 13 320, 0, 22 296, 1 804 N; there it is left out."""
    supports = [at(str(x), x) for x in (0.3, 2.6, 5.0, 7.0)]
    found = one_way(Girder(-1.4, 7.2, ((-1.4, E * 2.56e-5),)), supports, [loads(SMALL, TRAILER)],
                    [[0.0, -0.010, 0.0, 0.0]])[0]
    xs = sorted({-1.4, -0.9, 0.0, 0.3, 1.0, 5.0, 5.2, 7.0, 7.2})
    model = trailer(xs, (0.3, 5.0, 7.0))
    theirs = [model.nodes[f"n{xs.index(x)}"].RxnFY[COMBO] for x in (0.3, 5.0, 7.0)]
    assert found[[0, 2, 3]] == pytest.approx(theirs, rel=1e-7)
    assert found == pytest.approx([13320.0, 0.0, 22296.0, 1804.0], abs=0.5)
    # Two-way the stand would pull 26 705 N: there it is held down.
    xs = sorted({*xs, 2.6})
    held = trailer(xs, (0.3, 2.6, 5.0, 7.0), low=[(2.6, 0.010)])
    low = [[0.0, -0.010, 0.0, 0.0]]
    b = solve(Girder(-1.4, 7.2, ((-1.4, E * 2.56e-5),)), supports, [loads(SMALL, TRAILER)], low)[0]
    theirs = [held.nodes[f"n{xs.index(x)}"].RxnFY[COMBO] for x in (0.3, 2.6, 5.0, 7.0)]
    assert b.reactions == pytest.approx(theirs, rel=1e-7)
    assert b.reactions[1] == pytest.approx(-26705.0, abs=0.5)
