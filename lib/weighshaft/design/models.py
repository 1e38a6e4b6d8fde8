"""The models that check a design file, derived from the fields that the chapters declare."""

from __future__ import annotations

import dataclasses
import types
import typing
from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any, Literal, Union

import pydantic
from pydantic import BaseModel, ConfigDict, Field
from pydantic_core import core_schema

from ..sizes import Size, sizes_of
from .typed import Angle, Length, ScaleRatio

_LONGEST_TEXT = 2000


@cache
def _hints(kind: type) -> dict[str, Any]:
    return typing.get_type_hints(kind)


def hint_of(kind: type, name: str) -> Any:
    """Return the type of a field as it is declared."""
    return _hints(kind)[name]


def present(hint: Any) -> Any:
    """Return the type behind `X | None`; any other hint as it is."""
    if typing.get_origin(hint) in (Union, types.UnionType):
        rest = [arg for arg in typing.get_args(hint) if arg is not type(None)]
        if len(rest) == 1:
            return rest[0]
    return hint


@dataclass(frozen=True)
class _Spelt:
    """A float that keeps its spelling, as a pydantic type."""

    make: type[float]
    description: str

    def read(self, value: Any) -> float:
        if isinstance(value, bool) or not isinstance(value, (int, float, str)):
            raise ValueError("a number or a size as typed is needed")
        return self.make(value)

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> Any:
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(self, schema: Any, handler: Any) -> dict[str, Any]:
        spellings = [{"type": "number"}, {"type": "string", "maxLength": 60}]
        return {"anyOf": spellings, "description": self.description}


_BY_UNIT: dict[str, Any] = {
    "mm": Annotated[float, _Spelt(Length, "mm, or a length as typed")],
    "deg": Annotated[float, _Spelt(Angle, "degrees, or an angle as typed")],
    "scale": Annotated[float, _Spelt(ScaleRatio, "prototype over model, or as typed")],
}
Text = Annotated[str, Field(max_length=_LONGEST_TEXT)]


class Model(BaseModel):
    """What every model of a file has: nothing unknown, nothing guessed."""

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True, allow_inf_nan=False)


def _annotation(hint: Any, about: Size | None) -> Any:
    origin, args = typing.get_origin(hint), typing.get_args(hint)
    if origin in (Union, types.UnionType):
        kinds = [arg for arg in args if arg is not type(None)]
        made: Any = Union[tuple(_annotation(kind, about) for kind in kinds)]  # noqa: UP007
        if len(kinds) > 1 and all(map(dataclasses.is_dataclass, kinds)):
            made = Annotated[made, Field(discriminator="kind")]
        return made | None if len(kinds) < len(args) else made
    if origin is tuple:
        return Annotated[list[_annotation(args[0], about)], Field(max_length=60)]  # type: ignore[misc]
    if dataclasses.is_dataclass(hint):
        return model_of(typing.cast(type, hint))
    if about is None:
        return hint
    if about.unit == "choice":
        return Literal[about.choices]
    if about.unit in _BY_UNIT:
        return _BY_UNIT[about.unit]
    return {int: int, bool: bool, str: Text}.get(hint, float)


@cache
def model_of(kind: type) -> type[BaseModel]:
    """Return the pydantic model with the fields of a dataclass of decisions."""
    fields: dict[str, Any] = {}
    if (word := getattr(kind, "kind", None)) is not None:
        fields["kind"] = (Literal[word], ...)
    abouts = sizes_of(kind)
    for one in dataclasses.fields(kind):
        about = abouts.get(one.name)
        default: Any = ...
        if one.default is not dataclasses.MISSING:
            default = one.default
        elif one.default_factory is not dataclasses.MISSING:
            default = one.default_factory()
        default = _as_model(default)
        info = Field(default=default, title=about.label) if about else Field(default=default)
        fields[one.name] = (_annotation(hint_of(kind, one.name), about), info)
    made: type[BaseModel] = pydantic.create_model(kind.__name__, __base__=Model, **fields)
    return made


def _as_model(default: Any) -> Any:
    """Return a default as the models hold it, groups and lists of groups too."""
    if isinstance(default, tuple):
        return [_as_model(one) for one in default]
    if not dataclasses.is_dataclass(default):
        return default
    values = {f.name: _as_model(getattr(default, f.name)) for f in dataclasses.fields(default)}
    return model_of(typing.cast(type, type(default))).model_construct(**values)
