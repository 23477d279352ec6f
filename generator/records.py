"""Frozen records at a quarter of the price of the standard decorator, which compiles up to eight functions a class.

`check` makes some 240 classes before it reads a spec, so this is a tenth of its time. A record behaves as
`@dataclass(frozen=True, slots=True)` does, and to the type checker it is one.
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
else:
    import dataclasses
    from functools import cache
    from operator import attrgetter
    from types import FunctionType

    _SCOPE = {"_set": object.__setattr__}

    def dataclass(*, slots: bool, frozen: bool = False, eq: bool = True):
        """Decorator: the class becomes a frozen record with slots; anything else is left to the standard library."""
        if not (frozen and slots):
            return dataclasses.dataclass(frozen=frozen, slots=slots, eq=eq)
        return lambda cls: _record(cls, eq)

    def _record(cls, eq):
        # A class without a docstring would be given its signature, which costs more than all the rest.
        cls.__doc__ = cls.__doc__ or cls.__name__
        own = frozenset(cls.__dict__)
        if any(isinstance(v, dataclasses.Field) for v in cls.__dict__.values()):
            raise TypeError(f"{cls.__name__}: a field with a factory needs the standard decorator")
        made = dataclasses.dataclass(init=False, repr=False, eq=False, slots=True)(cls)
        for name, of in _methods(dataclasses.fields(made), eq).items():
            if name not in own:
                setattr(made, name, of)
        return made

    def _methods(fields, eq):
        methods = {"__init__": _init(fields), "__repr__": _repr, "__getstate__": _state, "__setstate__": _restore,
                   "__setattr__": _refuse, "__delattr__": _refuse}
        return {**methods, **_equality(fields)} if eq else methods

    def _init(fields):
        """The function for this many fields, with the names of these; compiling each would be most of the price."""
        code, names = _template(len(fields)), [f.name for f in fields]
        called = {f"_{n}": name for n, name in enumerate(names)}
        consts = tuple(called.get(c, c) for c in code.co_consts)
        defaults = tuple(f.default for f in fields if f.default is not dataclasses.MISSING)
        return FunctionType(code.replace(co_varnames=("self", *names), co_consts=consts), _SCOPE, "__init__", defaults)

    @cache
    def _template(count):
        names, scope = [f"_{n}" for n in range(count)], {}
        body = "; ".join(f"_set(self, {n!r}, {n})" for n in names) or "pass"
        exec(f"def __init__(self, {', '.join(names)}): {body}", scope)
        return scope["__init__"].__code__

    def _equality(fields):
        values = attrgetter(*[f.name for f in fields]) if fields else type

        def equal(self, other):
            return values(self) == values(other) if other.__class__ is self.__class__ else NotImplemented

        return {"__eq__": equal, "__hash__": lambda self: hash(values(self))}

    def _repr(self):
        inside = ", ".join(f"{f.name}={getattr(self, f.name)!r}" for f in dataclasses.fields(self))
        return f"{type(self).__qualname__}({inside})"

    def _state(self):
        return [getattr(self, f.name) for f in dataclasses.fields(self)]

    def _restore(self, state):
        for f, value in zip(dataclasses.fields(self), state, strict=True):
            object.__setattr__(self, f.name, value)

    def _refuse(self, name, *value):
        raise dataclasses.FrozenInstanceError(f"cannot assign to field {name!r}")
