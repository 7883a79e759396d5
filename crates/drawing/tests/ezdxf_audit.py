"""Reads the sample drawings with ezdxf, an independent reader of DXF, and complains of whatever it complains of.

Usage: python ezdxf_audit.py FOLDER

FOLDER holds NAME.dxf and NAME.sizes, as the example `samples` writes them. Every file must be read by the strict
reader with no error and no fix, and each corner listed in NAME.sizes must be found on the layer OUTLINE within a
millionth of an inch. Run by `cargo xtask drawings`.
"""

import pathlib
import sys

import ezdxf


def corners(space):
    """The ends and corners of everything on the layer OUTLINE."""
    for entity in space.query('LINE POLYLINE'):
        if entity.dxf.layer != "OUTLINE":
            continue
        if entity.dxftype() == "LINE":
            yield entity.dxf.start
            yield entity.dxf.end
        else:
            yield from entity.points()


def main(folder):
    drawings = sorted(pathlib.Path(folder).glob("*.dxf"))
    wrong = 0
    for path in drawings:
        drawing = ezdxf.readfile(path)
        auditor = drawing.audit()
        found = list(corners(drawing.modelspace()))
        wanted = [tuple(map(float, line.split())) for line in path.with_suffix(".sizes").read_text().splitlines()]
        missing = [
            corner
            for corner in wanted
            if not any(abs(p.x - corner[0]) < 1e-6 and abs(p.y - corner[1]) < 1e-6 for p in found)
        ]
        kinds = sorted({entity.dxftype() for entity in drawing.modelspace()})
        print(
            f"{path.name}: {drawing.dxfversion}, {len(drawing.modelspace())} entities, "
            f"{len(auditor.errors)} errors, {len(auditor.fixes)} fixes, "
            f"{len(wanted) - len(missing)} of {len(wanted)} corners, {' '.join(kinds)}"
        )
        wrong += len(auditor.errors) + len(auditor.fixes) + len(missing) + (not wanted)
    print(f"ezdxf {ezdxf.__version__}: {len(drawings)} files, {wrong} faults")
    return 0 if drawings and wrong == 0 else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
