"""Records of our own decorator behave as frozen records with slots of the standard library do."""

import copy
import dataclasses
import pickle

import pytest

from generator.records import dataclass


@dataclass(frozen=True, slots=True)
class Ours:
    """A record."""

    name: str
    size: float
    marks: tuple[str, ...] = ("none",)
    note: str = ""

    @property
    def doubled(self) -> float:
        return 2 * self.size


@dataclasses.dataclass(frozen=True, slots=True)
class Standard:
    """A record."""

    name: str
    size: float
    marks: tuple[str, ...] = ("none",)
    note: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class Apart:
    size: float


@dataclass(frozen=True, slots=True)
class Nothing:
    """No fields."""


@pytest.mark.parametrize("given", [("a", 1.0), ("a", 1.0, ("x",)), ("a", 1.0, ("x",), "n")])
def test_fields_defaults_text_and_hash_are_those_of_the_standard_library(given):
    ours, standard = Ours(*given), Standard(*given)
    assert dataclasses.astuple(ours) == dataclasses.astuple(standard)
    assert repr(ours).partition("Ours")[2] == repr(standard).partition("Standard")[2]
    assert hash(ours) == hash(standard)
    assert Ours.__slots__ == Standard.__slots__
    assert Ours.__match_args__ == Standard.__match_args__


def test_keywords_and_what_is_missing_or_too_much():
    assert Ours(size=2.0, name="b").doubled == 4.0
    for wrong in (lambda: Ours("a"), lambda: Ours("a", 1.0, colour="red"), lambda: Ours("a", 1.0, (), "", 3)):
        with pytest.raises(TypeError, match="__init__"):
            wrong()


def test_nothing_can_be_changed_or_added():
    record = Ours("a", 1.0)
    with pytest.raises(dataclasses.FrozenInstanceError, match="cannot assign to field 'size'"):
        record.size = 2.0
    with pytest.raises(dataclasses.FrozenInstanceError):
        del record.size
    with pytest.raises(dataclasses.FrozenInstanceError):
        record.other = 1
    assert not hasattr(record, "__dict__")


def test_equal_by_value_in_one_class_only():
    assert Ours("a", 1.0) == Ours("a", 1.0)
    assert Ours("a", 1.0) != Ours("a", 2.0)
    assert Ours("a", 1.0) != Standard("a", 1.0)
    assert Nothing() == Nothing()
    assert len({Ours("a", 1.0), Ours("a", 1.0), Nothing(), Nothing()}) == 2


def test_without_equality_a_record_is_itself_alone():
    assert Apart(1.0) != Apart(1.0)
    assert Apart.__doc__ == "Apart"


def test_replaced_copied_and_sent_to_another_process():
    record = Ours("a", 1.0, ("x",))
    assert dataclasses.replace(record, size=3.0) == Ours("a", 3.0, ("x",))
    assert pickle.loads(pickle.dumps(record)) == record
    assert copy.deepcopy(record) == record


def test_a_field_with_a_factory_is_refused():
    with pytest.raises(TypeError, match="standard decorator"):
        @dataclass(frozen=True, slots=True)
        class Wrong:
            marks: list[str] = dataclasses.field(default_factory=list)


def test_a_record_that_changes_is_the_standard_one():
    @dataclass(slots=True)
    class Open:
        marks: list[str] = dataclasses.field(default_factory=list)

    record = Open()
    record.marks = ["x"]
    assert record == Open(["x"])
