"""A whole folder: all faults of all files at once, each with its place and the way out."""

import math
import subprocess
from collections.abc import Mapping
from pathlib import Path

import pytest
from spec_folder import STARTER, edited, faults, line, write

from generator.errors import SpecError
from generator.spec.read import read_source, read_spec

Changes = Mapping[str, str | bytes | None]


def test_the_starter_reads(tmp_path: Path) -> None:
    spec = read_spec(write(tmp_path))
    assert spec.project.id == "first-design"
    assert spec.trailer.frame.length.nominal == pytest.approx(20 * 0.3048, rel=1e-15)
    assert spec.trailer.frame.length.origin == f"trailer.yaml:{line('trailer.yaml', '  length: 20 ft')}"
    assert spec.trailer.frame.members[1].stations[0].nominal == pytest.approx(0.0381, rel=1e-15)
    assert spec.tow is not None
    assert [note.to for note in spec.notes] == [("owner",), ("owner",)]
    assert spec.unknowns == ()
    assert spec.foreign == ()


def test_optional_files_may_be_missing(tmp_path: Path) -> None:
    spec = read_spec(
        write(
            tmp_path,
            {
                "tow.yaml": None,
                "site.yaml": None,
                "costs.yaml": None,
                "revisions.yaml": None,
                "notes/questions.md": None,
                "notes/measuring-sheet.md": None,
            },
        )
    )
    assert (spec.tow, spec.site, spec.costs, spec.revisions, spec.notes) == (None, None, None, None, ())


def test_unknown_values_become_tasks_with_their_description(tmp_path: Path) -> None:
    spec = read_spec(write(tmp_path, edited("tow.yaml", ("bed_rail: 58 in", "bed_rail: unknown"))))
    assert spec.tow is not None
    assert math.isnan(spec.tow.vehicle.bed_rail.nominal)
    (unknown,) = spec.unknowns
    assert unknown.path == "tow.yaml: vehicle.bed_rail"
    assert unknown.description == "Top of bed rail from the ground, loaded."
    assert unknown.origin == f"tow.yaml:{line('tow.yaml', 'bed_rail')}"


def test_an_unknown_value_in_a_list_is_named_by_its_entry(tmp_path: Path) -> None:
    spec = read_spec(write(tmp_path, edited("weights.yaml", ("mass: 92 lb +/- 5 %", "mass: unknown"))))
    assert [unknown.path for unknown in spec.unknowns] == ["weights.yaml: items.coupler.mass"]


def test_a_foreign_unit_is_echoed(tmp_path: Path) -> None:
    """Stone: 14 lb = 6.35029318 kg (UK Weights and Measures Act 1985)."""
    spec = read_spec(write(tmp_path, edited("weights.yaml", ("mass: 92 lb +/- 5 %", "mass: 7 stone"))))
    (foreign,) = spec.foreign
    assert (foreign.path, foreign.text, foreign.unit) == ("weights.yaml: items.coupler.mass", "7 stone", "kg")
    assert foreign.value == pytest.approx(7 * 6.35029318, rel=1e-9)


def test_a_missing_compulsory_file(tmp_path: Path) -> None:
    assert faults(tmp_path, {"house.yaml": None, "weights.yaml": None}) == [
        "house.yaml: missing; every spec needs it; `packet new` writes one to begin with",
        "weights.yaml: missing; every spec needs it; `packet new` writes one to begin with",
    ]


def test_no_folder(tmp_path: Path) -> None:
    assert faults(tmp_path) == []
    with pytest.raises(SpecError, match=r"nowhere: no such folder; name the folder that holds project.yaml"):
        read_spec(tmp_path / "nowhere")
    with pytest.raises(SpecError, match=r"house.yaml: not a folder; name the folder that holds project.yaml"):
        read_spec(tmp_path / "house.yaml")


COUPLING = "keys here: adjust_high, adjust_low, adjust_step, ball_diameter, rating, station, type, vertical_rating"


@pytest.mark.parametrize(
    ("file", "old", "new", "fault"),
    [
        (
            "trailer.yaml",
            "rating: 25000 lb",
            "rating: 25000",
            "coupling.rating: `25000` has no unit; write a mass, for example `7000 lb` or `3175 kg`",
        ),
        (
            "trailer.yaml",
            "rating: 25000 lb",
            "rating: 25 ft",
            "coupling.rating: `25 ft` is a length, not a mass; write a mass, for example `7000 lb` or `3175 kg`",
        ),
        (
            "trailer.yaml",
            "rating: 25000 lb",
            "rating: nan kg",
            "coupling.rating: `nan kg` is no number; write a mass, for example `7000 lb` or `3175 kg`, or `unknown`",
        ),
        (
            "trailer.yaml",
            "length: 20 ft",
            "length: -20 ft",
            "frame.length: `-20 ft` is not more than zero; write a value above zero, or `unknown`",
        ),
        (
            "trailer.yaml",
            "length: 20 ft",
            "length: 0 ft",
            "frame.length: `0 ft` is not more than zero; write a value above zero, or `unknown`",
        ),
        (
            "trailer.yaml",
            "ball_diameter: 2 5/16 in",
            "bal_diameter: 2 5/16 in",
            f"coupling.bal_diameter: key `bal_diameter` is not known; did you mean `ball_diameter`? {COUPLING}",
        ),
        (
            "trailer.yaml",
            "type: gooseneck",
            "type: goosneck",
            "coupling.type: `goosneck` is not a choice here; did you mean `gooseneck`? write gooseneck, ball "
            "or king pin",
        ),
        (
            "trailer.yaml",
            "deck: between the wheels",
            "deck: over the wheel",
            "deck: `over the wheel` is not a choice here; did you mean `over the wheels`? write between the "
            "wheels or over "
            "the wheels",
        ),
        (
            "trailer.yaml",
            'galvanised: "no"',
            "galvanised: off",
            "frame.galvanised: `off` is not a choice here; write yes or no",
        ),
        (
            "project.yaml",
            "id: first-design",
            "id: ../x",
            "id: `../x` may not stand here; write a name: small letters, digits and hyphens, a letter first, at "
            "most 40",
        ),
        (
            "project.yaml",
            "id: first-design",
            "id: a.b",
            "id: `a.b` may not stand here; write a name: small letters, digits and hyphens, a letter first, at most 40",
        ),
        (
            "project.yaml",
            "date: 2026-09-01",
            "date: 2026-02-30",
            "date: `2026-02-30` is no day of the calendar; write a day as 2026-05-31",
        ),
        (
            "project.yaml",
            "date: 2026-09-01",
            "date: 1 Sept",
            "date: `1 Sept` may not stand here; write a day written as `2026-05-31`",
        ),
        (
            "project.yaml",
            "moves_a_year: 2",
            "moves_a_year: two",
            "use.moves_a_year: `two` is not a whole number; write digits alone, for example `12`",
        ),
        ("project.yaml", "title: First design", "title: " + "x" * 81, "title: longer than 80 characters; at most 80"),
        (
            "project.yaml",
            "title: First design",
            "title:",
            "title: nothing is written here; write some text, or leave the key out where it is optional",
        ),
        ("project.yaml", "title: First design", "title: [a, b]", "title: a map or a list stands here; write one text"),
        (
            "project.yaml",
            "roads: [highway, paved]",
            "roads: highway",
            "use.roads: `highway` is not a list; write a list: one `- ` line for each entry",
        ),
        (
            "project.yaml",
            "regions: [US-OR, US-WA]",
            "regions: []",
            "use.regions: nothing stands in this list; write at least 1",
        ),
        (
            "house.yaml",
            "mass: 82 lb +/- 5 %",
            "mass: 82 lb +/- 120 %",
            "openings.door.mass: `82 lb +/- 120 %`: the spread is not between zero and the value itself; write "
            "for example "
            "`+/- 10 %`, more than 0 % and less than 100 %",
        ),
        (
            "house.yaml",
            "stands_in: [living, bath]",
            "stands_in: [living, bth]",
            "people.stands_in.2: `bth` is not there; did you mean `bath`? names there: bed, living, bath",
        ),
        (
            "house.yaml",
            "surface: wall-right",
            "surface: wall-rigt",
            "openings.door.surface: `wall-rigt` is not there; did you mean `wall-right`? names there: "
            "floor-main, floor-neck, "
            "wall-left, wall-right, neck-left, neck-right, wall-nose, wall-front, wall-rear, roof-all, wall-bath",
        ),
        (
            "house.yaml",
            "buildup: partition",
            "buildup: partitions",
            "surfaces.wall-bath.buildup: `partitions` is not there; did you mean `partition`? names there: wall, "
            "floor, roof, "
            "partition",
        ),
        (
            "costs.yaml",
            "low: 200",
            "low: 400",
            "lines.drawings.likely: low, likely and high are not in order; low at most likely, likely at most high",
        ),
        (
            "costs.yaml",
            "due: order",
            "due: ordr",
            "lines.drawings.due: `ordr` is not there; did you mean `order`? names there: order, delivery, shell, "
            "finish",
        ),
        (
            "weights.yaml",
            "id: jack-pair",
            "id: coupler",
            "items.coupler.id: `coupler` is already the name of another entry (weights.yaml:5); each name once",
        ),
        (
            "project.yaml",
            "questions_until: 2026-10-12",
            "questions_until: 2026-12-12",
            "request.questions_until: after the day on which quotes are due; questions end before quotes are due",
        ),
        (
            "trailer.yaml",
            "station: 118 in",
            "station: -80 in",
            "running_gear.station: the first axle stands at or ahead of the coupling; stations grow to the rear, "
            "y to the "
            "right, heights upward",
        ),
        (
            "trailer.yaml",
            "legs: 2",
            "legs: 1",
            "jacks.front.legs: 1 legs with drive `shared shaft`; write 2, or another drive",
        ),
        (
            "trailer.yaml",
            "foremost: 112 in",
            "foremost: 130 in",
            "running_gear.rearmost: not beyond `foremost`; stations grow to the rear, y to the right, heights upward",
        ),
    ],
)
def test_one_fault_word_for_word(tmp_path: Path, file: str, old: str, new: str, fault: str) -> None:
    """Each says where it stands, what is wrong and what is allowed; the line is that of the change."""
    found = faults(tmp_path, edited(file, (old, new)))
    at = {"foremost: 112 in": "rearmost: 124 in", "low: 200": "likely: 350"}.get(old, old)
    assert found == [f"{file}:{line(file, at)}: {fault}"]


def test_a_text_where_a_map_belongs(tmp_path: Path) -> None:
    head, _, rest = STARTER["tow.yaml"].partition("vehicle:")
    text = f"{head}vehicle: a pickup\nmeasured_by: me\n"
    assert rest
    assert (
        faults(tmp_path, {"tow.yaml": text})[0]
        .split(": ", 1)[1]
        .startswith(
            "vehicle: `a pickup` is not a map of keys; keys here: ball_height, ball_to_bed_end, ball_to_bumper"
        )
    )


def test_an_id_in_two_files_names_both(tmp_path: Path) -> None:
    found = faults(tmp_path, edited("weights.yaml", ("id: jack-pair", "id: door")))
    assert found == [
        f"weights.yaml:{line('weights.yaml', 'id: jack-pair')}: items.door.id: `door` is already the name of "
        f"another entry (house.yaml:{line('house.yaml', 'id: door')}); each name once"
    ]


def test_no_axles_is_a_fault(tmp_path: Path) -> None:
    start = STARTER["trailer.yaml"].index("  axles:")
    end = STARTER["trailer.yaml"].index("  tyre:")
    text = STARTER["trailer.yaml"][:start] + "  axles: []\n" + STARTER["trailer.yaml"][end:]
    found = faults(tmp_path, {"trailer.yaml": text})
    assert found == [
        f"trailer.yaml:{line('trailer.yaml', '  axles:')}: running_gear.axles: nothing stands in this list; "
        "write at least 1"
    ]


def test_a_fault_of_a_part_is_not_told_twice(tmp_path: Path) -> None:
    """One bad entry of a list with a least length gives one fault, not a second one for the list."""
    assert len(faults(tmp_path, edited("project.yaml", ("roads: [highway, paved]", "roads: [higway]")))) == 1


def test_a_missing_key_says_what_to_write(tmp_path: Path) -> None:
    found = faults(tmp_path, edited("trailer.yaml", ("  station: -66 in", "  # station: -66 in")))
    assert found == [
        f"trailer.yaml:{line('trailer.yaml', 'coupling:')}: coupling.station: missing; write `station: ...`: "
        "Station of "
        "the ball centre (ahead of datum A: negative). For example `8 ft 6 in`, or `unknown`"
    ]


def test_a_comma_in_a_flow_map_is_explained(tmp_path: Path) -> None:
    found = faults(
        tmp_path, edited("weights.yaml", ("title: Empty fresh-water tank", "title: Fresh-water tank, empty"))
    )
    assert [f.split(": ", 1)[1] for f in found] == [
        "items.fresh-shell.empty: key `empty` is not known; a comma inside { } ends a value: put such text "
        "between quotes"
    ]


def test_all_faults_of_all_files_come_at_once(tmp_path: Path) -> None:
    changes = {
        **edited("trailer.yaml", ("rating: 25000 lb", "rating: 25000"), ("length: 20 ft", "length: 20 kg")),
        **edited("house.yaml", ("width: 8 ft 5 in", "width: -8 ft"), ("rear: 241 in", "reer: 241 in")),
        **edited("weights.yaml", ("mass: 92 lb +/- 5 %", "mass: 92 oz")),
        **edited("tow.yaml", ("wheelbase: 176 in", "wheelbase: 1,76 m")),
        "site.yaml": "title: &x here\n",
        "notes/questions.md": "---\nto: [boss]\n---\ntext\n",
        "hous.yaml": "x: 1\n",
    }
    changes["tow.yaml"] = b"\xff\xfe"
    found = faults(tmp_path, changes)
    files = [f.split(":")[0] for f in found]
    assert files == sorted(files)
    assert files == [
        "hous.yaml",
        "house.yaml",
        "house.yaml",
        "notes/questions.md",
        "site.yaml",
        "tow.yaml",
        "trailer.yaml",
        "trailer.yaml",
        "weights.yaml",
    ]


def test_a_missing_file_does_not_hide_the_faults_of_the_others(tmp_path: Path) -> None:
    changes = {"house.yaml": None, **edited("trailer.yaml", ("rating: 25000 lb", "rating: 25000"))}
    assert [fault.split(":")[0] for fault in faults(tmp_path, changes)] == ["house.yaml", "trailer.yaml"]


def test_lines_end_either_way_and_a_mark_may_stand_in_front(tmp_path: Path) -> None:
    plain = read_spec(write(tmp_path / "lf"))
    windows = {name: b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode() for name, text in STARTER.items()}
    assert read_spec(write(tmp_path / "crlf", windows)) == plain


def test_the_source_is_sorted_and_hashed(tmp_path: Path) -> None:
    """SHA-256 of the bytes as they are, against the machine's own sha256sum."""
    source = read_source(write(tmp_path))
    paths = [file.path for file in source.files]
    assert paths == sorted(paths)
    printed = subprocess.run(["sha256sum", *paths], cwd=tmp_path, capture_output=True, text=True, check=True).stdout
    assert [row.split()[0] for row in printed.splitlines()] == [file.sha256 for file in source.files]


@pytest.mark.parametrize(
    ("old", "new", "fault"),
    [
        ("    type: torsion", "    type: leef", "suspension.type: `leef` is not a choice here; did you mean `leaf`?"),
        ("  type: gooseneck", "", "coupling: `type` is missing; write `type: ...`: gooseneck, ball or king pin"),
        ("    arm: 6 in", "    arm: 6 lb", "running_gear.suspension.arm: "),
        ("    arm: 6 in", "", "suspension.arm: missing; write `arm: ...`: Length of the trailing arm."),
        ("    arm: 6 in", "    arms: 6 in", "suspension.arms: key `arms` is not known; did you mean `arm`?"),
        ("  type: gooseneck", "  type: king pin", "coupling.pin_length: missing; write `pin_length: ...`: Pin plate"),
    ],
)
def test_faults_of_a_choice_name_the_key_as_it_is_written(tmp_path: Path, old: str, new: str, fault: str) -> None:
    found = faults(tmp_path, edited("trailer.yaml", (old, new)))
    assert any(fault in f for f in found), found


def test_a_neck_and_a_tongue_go_with_their_couplings(tmp_path: Path) -> None:
    text = STARTER["trailer.yaml"]
    start, end = text.index("neck:"), text.index("deck: between")
    (fault,) = faults(tmp_path, {"trailer.yaml": text[:start] + text[end:]})
    assert "`neck` is missing; coupling `gooseneck` needs it" in fault


@pytest.mark.parametrize(("text", "word"), [
    ("Axles of 7,000 lb, $ 900 more", "$"), ("A neck for NZD 400", "NZD"), ("The budget allows it", "budget"),
    ("As quoted", "quoted"), ("Two hundred euros less", "euros"),
])
def test_what_others_read_of_a_revision_names_no_money(tmp_path: Path, text: str, word: str) -> None:
    """The rest of revisions.yaml may: it reaches the owner alone."""
    said = {"revisions.yaml": STARTER["revisions.yaml"].rstrip() + f"\n    technical:\n      - \"{text}\"\n"}
    assert [f for f in faults(tmp_path / "a", said) if f"`{word}` speaks of money" in f]


def test_technical_words_of_a_revision_are_read(tmp_path: Path) -> None:
    said = {"revisions.yaml": STARTER["revisions.yaml"].rstrip() + "\n    technical:\n      - Rails of HSS 8x3\n"}
    assert faults(tmp_path / "a", said) == []
