"""Whether Doxygen reads the comments of the public headers without a warning: each function, type and constant has one, and what a comment
names is there. (That the headers of the Doxyfile are those that install is checked too.)

usage: check_comments.py LIST_OF_PUBLIC_HEADERS DOXYGEN
"""
import pathlib
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "lib" / "doxygen"))
from shared_comments import shared  # noqa: E402


def main():
    public, doxygen = sys.argv[1:]
    with tempfile.TemporaryDirectory() as folder:
        for header in (ROOT / "lib" / "heapwright").rglob("*.hpp"):
            seen = pathlib.Path(folder, header.relative_to(ROOT))
            seen.parent.mkdir(parents=True, exist_ok=True)
            seen.write_text("".join(shared(header.read_text(encoding="utf-8").splitlines(keepends=True))), encoding="utf-8")
        # The filter is Python, and starting it for each header takes ten times as long.
        of_this_test = "INPUT_FILTER =\nGENERATE_HTML = NO\nGENERATE_XML = YES\nOUTPUT_DIRECTORY = .\n"
        doxyfile = (ROOT / "lib" / "doxygen" / "Doxyfile").read_text(encoding="utf-8") + of_this_test
        result = subprocess.run([doxygen, "-"], input=doxyfile, cwd=folder, capture_output=True, text=True, timeout=120)
        print(result.stderr, end="")
        read = {path.name for path in pathlib.Path(folder, "xml").glob("*_8hpp.xml")}
    wanted = pathlib.Path(public).read_text(encoding="utf-8").split()
    if len(read) != len(wanted):
        print(f"the Doxyfile takes {len(read)} headers, and {len(wanted)} install")
    return 0 if result.returncode == 0 and not result.stderr and len(read) == len(wanted) else 1


if __name__ == "__main__":
    sys.exit(main())
