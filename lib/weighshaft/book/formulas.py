"""Formulas: from the LaTeX that sympy writes to the mathematics of the typesetter.

Only what is known is translated; anything else is refused, and never passed on, so that no
text can become a command of the typesetter.
"""

from __future__ import annotations

import re

_TOKEN = re.compile(r"\\[A-Za-z]+|\\.|\d+(?:\.\d+)?|\s+|.", re.DOTALL)
_NAMES = {
    "alpha": "alpha", "beta": "beta", "gamma": "gamma", "delta": "delta",
    "epsilon": "epsilon.alt", "varepsilon": "epsilon", "zeta": "zeta", "eta": "eta",
    "theta": "theta", "vartheta": "theta.alt", "iota": "iota", "kappa": "kappa",
    "lambda": "lambda", "mu": "mu", "nu": "nu", "xi": "xi", "pi": "pi", "rho": "rho",
    "varrho": "rho.alt",
    "sigma": "sigma", "tau": "tau", "upsilon": "upsilon", "phi": "phi.alt", "varphi": "phi",
    "chi": "chi", "psi": "psi", "omega": "omega", "Gamma": "Gamma", "Delta": "Delta",
    "Theta": "Theta", "Lambda": "Lambda", "Xi": "Xi", "Pi": "Pi", "Sigma": "Sigma",
    "Upsilon": "Upsilon", "Phi": "Phi", "Psi": "Psi", "Omega": "Omega",
    "ell": "ell", "infty": "oo", "partial": "partial", "prime": "prime", "circ": "degree",
    "cdot": "dot.op", "times": "times", "pm": "plus.minus", "mp": "minus.plus",
    "leq": "<=", "le": "<=", "geq": ">=", "ge": ">=", "neq": "!=", "ne": "!=",
    "approx": "approx", "to": "arrow.r", "rightarrow": "arrow.r", "sum": "sum",
    "quad": "quad", "qquad": "wide", "lfloor": "floor.l", "rfloor": "floor.r",
    "lceil": "ceil.l", "rceil": "ceil.r",
    "sin": "sin", "cos": "cos", "tan": "tan", "cot": "cot", "log": "log", "ln": "ln",
    "exp": "exp", "min": "min", "max": "max", "arcsin": "arcsin", "arccos": "arccos",
    "arctan": "arctan", "sinh": "sinh", "cosh": "cosh", "tanh": "tanh",
}  # fmt: skip
_SPACES = {",": "thin", ":": "med", ";": "thick", " ": "space", "!": ""}
_ACCENTS = {"dot": "dot", "ddot": "dot.double", "hat": "hat", "bar": "macron",
            "overline": "overline", "vec": "arrow", "tilde": "tilde"}  # fmt: skip
_WORDS = {"mathrm": "upright", "text": "upright", "mathit": "italic", "mathbf": "bold"}
_FENCES = {"(": r"\(", ")": r"\)", "[": r"\[", "]": r"\]", "|": "|", "lfloor": "floor.l",
           "rfloor": "floor.r", "lceil": "ceil.l", "rceil": "ceil.r", ".": "",
           "{": r"\{", "}": r"\}"}  # fmt: skip
_PLAIN = frozenset("+-=<>!'.")
_ESCAPED = frozenset("()[]|,;:/*")


_LONG = re.compile(r"\d+\.\d{6,}")


def shortened(latex: str) -> str:
    """Return LaTeX with its constants to six figures, and the natural logarithm by its name."""
    return _LONG.sub(lambda found: f"{float(found[0]):.6g}", latex).replace(r"\log", r"\ln")


class Untranslated(ValueError):
    """A piece of LaTeX that is not known here."""


def typeset(latex: str) -> str:
    """Return LaTeX as mathematics of the typesetter.

    Parameters
    ----------
    latex : as `Working.in_symbols` and `Working.in_numbers` write it.

    Raises
    ------
    Untranslated : for anything that is not known.
    """
    reader = _Reader(latex)
    made = reader.row("")
    if reader.left:
        raise Untranslated(f"“{reader.next()}” closes nothing in {latex}")
    return made


class _Reader:
    """Reads LaTeX from left to right."""

    def __init__(self, latex: str) -> None:
        self._tokens = _TOKEN.findall(latex)
        self._at = 0

    @property
    def left(self) -> bool:
        return self._at < len(self._tokens)

    def next(self) -> str:
        if not self.left:
            raise Untranslated("the formula ends too early")
        self._at += 1
        return str(self._tokens[self._at - 1])

    def _peek(self) -> str:
        return str(self._tokens[self._at]) if self.left else ""

    def _skip(self) -> None:
        while self._peek().isspace():
            self._at += 1

    def row(self, end: str) -> str:
        """Return everything up to a token that ends it, which is left to be read."""
        made: list[str] = []
        while self.left and self._peek() != end:
            token = self._peek()
            if token == "}":
                break
            if token.isspace():
                self._at += 1
            elif token in "^_":
                self._at += 1
                base = made.pop() if made else '""'
                made.append(f"{base}{token}({self.argument()})")
            else:
                made.append(self._one())
        return " ".join(one for one in made if one)

    def argument(self) -> str:
        """Return what a command takes: a group, or the next thing."""
        self._skip()
        if self._peek() != "{":
            return self._one()
        self._at += 1
        made = self.row("}")
        self._close("}")
        return made

    def _close(self, sign: str) -> None:
        if self.next() != sign:
            raise Untranslated(f"a “{sign}” is missing")

    def _one(self) -> str:
        if self._peek() == "{":
            return self._joined(self.argument())
        token = self.next()
        if token.startswith("\\"):
            return self._command(token[1:])
        if token in _PLAIN or token[0].isdigit() or (token.isalpha() and token.isascii()):
            return token
        if token in _ESCAPED:
            return f"\\{token}"
        raise Untranslated(f"“{token}” is not known in formulas")

    def _joined(self, row: str) -> str:
        """Keep a group together, so that a power is of all of it."""
        return f'lr("" {row})' if " " in row else row

    def _command(self, name: str) -> str:
        if name in _NAMES:
            return _NAMES[name]
        if name in _SPACES:
            return _SPACES[name]
        if name in ("frac", "dfrac", "tfrac"):
            over, under = self.argument(), self.argument()
            made = f"frac({over}, {under})"
            return f"inline({made})" if name == "tfrac" else made
        if name == "sqrt":
            self._skip()
            if self._peek() == "[":
                self._at += 1
                degree = self.row("]")
                self._close("]")
                return f"root({degree}, {self.argument()})"
            return f"sqrt({self.argument()})"
        if name in _ACCENTS:
            accent = _ACCENTS[name]
            inner = self.argument()
            return f"{accent}({inner})" if "." not in accent else f"accent({inner}, {accent})"
        if name in _WORDS:
            return f'{_WORDS[name]}("{self._letters()}")'
        if name == "operatorname":
            return f'op("{self._letters()}")'
        if name == "left":
            opened = self._fence()
            inner = self.row("\\right")
            self._close("\\right")
            return f"lr({opened} {inner} {self._fence()})"
        raise Untranslated(f"“\\{name}” is not known in formulas")

    def _fence(self) -> str:
        token = self.next().lstrip("\\")
        if token not in _FENCES:
            raise Untranslated(f"“{token}” is no bracket")
        return _FENCES[token]

    def _letters(self) -> str:
        """Return the words of a group, which may hold nothing but letters, digits and spaces."""
        self._skip()
        if self._peek() != "{":
            word = self.next()
        else:
            self._at += 1
            word = ""
            while self.left and self._peek() != "}":
                token = self.next()
                word += " " if token in ("\\ ", "\\,") else token
            self._close("}")
        if not re.fullmatch(r"[\w .,/%-]*", word):
            raise Untranslated(f"“{word}” is not known in formulas")
        return word
