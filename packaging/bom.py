"""Checks a bill of materials against the published JSON schema of CycloneDX 1.5, with its own library."""

import pathlib
import sys

from cyclonedx.schema import SchemaVersion
from cyclonedx.validation.json import JsonStrictValidator

fault = JsonStrictValidator(SchemaVersion.V1_5).validate_str(pathlib.Path(sys.argv[1]).read_text())
if fault is not None:
    sys.exit(f"{sys.argv[1]}: {fault}")
print(f"{pathlib.Path(sys.argv[1]).name}: valid by CycloneDX 1.5")
