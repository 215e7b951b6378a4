"""A header as Doxygen should see it, to standard output. In the headers a comment holds for all that stands under it, to the next comment
or blank line, and the comment of a struct for its first members too; Doxygen takes it for the first declaration alone. So it is repeated
before each. The first comment of a file is the file's. No line is added, so that warnings point to the right one.

usage: shared_comments.py HEADER
"""
import re
import sys

SCOPE = re.compile(r"^(?:template <.*> *)?(struct|class|enum|namespace)\b[^;()]*$")


def shared(lines):
    comment, is_new = [], False  # the comment that holds, and whether nothing stands under it yet
    scopes = []  # of the open braces: the word of a scope of declarations, nothing of a body
    statement = ""  # what is read of one that goes over several lines
    for number, line in enumerate(lines):
        text = line.strip()
        code = re.sub(r'"(?:[^"\\]|\\.)*"', '""', re.sub(r"\s*//.*", "", text))
        if text == "#pragma once" and lines[number + 1].startswith("///"):
            line = "/// @file\n"
        elif text.startswith("///"):
            comment, is_new = [*comment, text[3:].strip()] if is_new else [text[3:].strip()], True
        elif not text:
            comment, is_new = [], False
        elif code and not code.startswith("#"):
            if all(scopes) and not statement and not code.startswith("}") and not code.endswith(":"):
                if comment and not is_new and "///<" not in text:
                    line = f"{line[:line.index(text)]}/** {' '.join(comment)} */ {text}\n"
                is_new = False
            statement = f"{statement} {code}".strip()
            for i, brace in enumerate(code):
                if brace == "{":
                    scope = SCOPE.match(statement[:-1]) if i == len(code) - 1 else None
                    scopes.append(scope.group(1) if scope else "")
                elif brace == "}":
                    scopes.pop()
            ends = "{};:," if scopes and scopes[-1] == "enum" else "{};:"
            if code.endswith(tuple(ends)) and statement.count("(") == statement.count(")"):
                statement = ""
        yield line


if __name__ == "__main__":
    with open(sys.argv[1], encoding="utf-8") as header:
        sys.stdout.writelines(shared(list(header)))
