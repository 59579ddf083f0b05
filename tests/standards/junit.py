"""Holds a JUnit report (second argument) to an XSD that lies in a source archive (first argument)."""

import io
import sys
import tarfile

from lxml import etree

with tarfile.open(sys.argv[1]) as archive:
    name = next(name for name in archive.getnames() if name.endswith("/junit-10.xsd"))
    schema = etree.XMLSchema(etree.parse(io.BytesIO(archive.extractfile(name).read())))
schema.assertValid(etree.parse(sys.argv[2]))
