"""Holds a bill of materials to the published JSON schema of CycloneDX 1.5, in the words of its own library."""

import pathlib
import sys

from cyclonedx.schema import SchemaVersion
from cyclonedx.validation.json import JsonStrictValidator

fault = JsonStrictValidator(SchemaVersion.V1_5).validate_str(pathlib.Path(sys.argv[1]).read_text())
if fault is not None:
    sys.exit(f"{sys.argv[1]}: {fault}")
print(f"{pathlib.Path(sys.argv[1]).name}: as CycloneDX 1.5 has it")
