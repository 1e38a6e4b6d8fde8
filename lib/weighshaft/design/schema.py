"""The JSON Schema of a design file, published with the package.

`python -m weighshaft.design.schema` writes it anew after a chapter's decisions changed.
"""

from __future__ import annotations

import json
from pathlib import Path

from .document import json_schema

PUBLISHED = Path(__file__).with_name("weighshaft-design.schema.json")


def schema_text() -> str:
    """Return the schema as it is to be published."""
    return json.dumps(json_schema(), ensure_ascii=False, indent=2) + "\n"


def main() -> None:
    """Write the published schema anew."""
    PUBLISHED.write_text(schema_text(), encoding="utf-8")


if __name__ == "__main__":
    main()
