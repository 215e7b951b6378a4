"""Man pages and completions name what --help names, no more and no less; and what --version tells.

usage: check_manual.py PROGRAM SHARE
    SHARE: the folder that the build wrote man pages and completions into
"""
import pathlib
import re
import subprocess
import sys
import tempfile

OPTION = re.compile(r"^  (?:-(\w),)?(--[a-z-]+)(.*)")
LINTS = ["mandoc", "-Tlint", "-W", "style"]
failures = []
checks = 0


def check(where, holds, what):
    global checks
    checks += 1
    if not holds:
        failures.append(f"{where}: {what}")


def run(*arguments, **options):
    return subprocess.run(arguments, capture_output=True, text=True, timeout=60, **options)


def options_of(help_text):
    """{"--units": ("TEXT:{us,si,both}", "how amounts are shown: us, si or both")}"""
    lines = help_text.split("\nOptions:\n")[1].split("\n\n")[0].split("\n")
    found = {}
    for line in lines:
        option = OPTION.match(line)
        if option:
            name = option[2]
            takes, says = re.fullmatch(r"(?: (?!Excludes)([A-Z]+(?::\{.*?\})?)(?: \.\.\.)?)?(?: Excludes:(?: --[a-z-]+)+)?(?:\s+(\S.*))?", option[3]).groups()
            found[name] = (takes or "", says or "")
        else:
            takes, says = found[name]
            found[name] = (takes, (says + " " + line.strip()).strip())
    return found


def arguments_of(help_text):
    """["TOML"] of a command that takes a yard file"""
    part = help_text.partition("\nPositionals:\n")[2].split("\n\n")[0]
    return re.findall(r"^  [a-z]+ ([A-Z]+)", part, re.MULTILINE)


def in_man_page(path):
    section = path.read_text(encoding="utf-8").split(".SH OPTIONS\n")[1].split(".SH ")[0]
    terms = re.findall(r"\.TP\n(.*)\n", section)
    return {re.search(r"\\fB(\\-\\-[a-z\\-]+)\\fR", term)[1].replace("\\", "") for term in terms}


def case_of(text, command):
    return re.search(rf"^ +{command}\)\n(.*?)^ +;;\n(?! +-)", text, re.MULTILINE | re.DOTALL)[1]


def check_bash(text, command, options):
    case = case_of(text, command)
    check(f"bash {command}", set(re.search(r"options='(.*)'", case)[1].split()) == set(options), "other options than --help")
    taken = dict(re.findall(r"(--[a-z-]+)\) takes='(.*)' ;;", case))
    for name, (takes, _) in options.items():
        words = re.search(r"\{(.*)\}", takes)
        check(f"bash {command} {name}", taken.get(name, "") == (words[1].replace(",", " ") if words else takes), f"takes {taken.get(name)}")


def check_zsh(text, command, options):
    case = case_of(text, command)
    found = set(re.findall(r"^ +'(?:\([^)]*\)|\*)?(--[a-z-]+)[=\[]", case, re.MULTILINE))
    check(f"zsh {command}", found == set(options), f"{found ^ set(options)} differ from --help")


def check_fish(text, command, options):
    lines = re.findall(rf"^complete -c heapwright -n '__fish_seen_subcommand_from {command}'(?: -s \w)? -l ([a-z-]+).*? -d '(.*)'$", text, re.MULTILINE)
    found = {"--" + name: re.sub(r"\\(.)", r"\1", says) for name, says in lines}
    expected = {name: says for name, (_, says) in options.items()}
    check(f"fish {command}", found == expected, f"{set(found.items()) ^ set(expected.items())}")


def completed_by_bash(script, words):
    """What bash offers for the last of the words, in a folder with a few files."""
    line = " ".join(f"'{word}'" for word in words)
    with tempfile.TemporaryDirectory() as folder:
        for name in ("my yard.toml", "log.csv"):
            pathlib.Path(folder, name).touch()
        pathlib.Path(folder, "handouts").mkdir()
        code = f"compopt() {{ :; }}; source '{script}'; COMP_WORDS=({line}); COMP_CWORD={len(words) - 1}; _heapwright; printf '%s\\n' \"${{COMPREPLY[@]}}\""
        result = run("bash", "--norc", "-c", code, cwd=folder)
    check(f"bash {words}", not result.stderr, result.stderr)
    return sorted(line for line in result.stdout.split("\n") if line)


def check_bash_at_work(script, commands):
    def offers(words, expected):
        found = completed_by_bash(script, ["heapwright", *words])
        check(f"bash completes {words}", found == sorted(expected), f"with {found}")

    offers([""], commands)
    offers(["plan", ""], ["handouts", "my yard.toml"])
    offers(["plan", "--base", "my"], ["my yard.toml"])
    offers(["plan", "--units", ""], ["us", "si", "both"])
    offers(["plan", "--units", "="], ["us", "si", "both"])
    offers(["plan", "--units", "=", "b"], ["both"])
    offers(["plan", "--html", ""], ["handouts", "log.csv", "my yard.toml"])
    offers(["readings", "--log", ""], ["handouts", "log.csv"])
    offers(["workshop", "--into", ""], ["handouts"])
    offers(["forecast", "my yard.toml", "--built", ""], [])
    offers(["forecast", "my yard.toml", "--c"], ["--climate", "--csv", "--compare"])


def check_version(program):
    lines = run(program, "--version").stdout.split("\n")
    check("--version", re.fullmatch(r"heapwright \d+\.\d+\.\d+", lines[0]), f"begins with {lines[0]}")
    for fact in ("compiler: ", "fmt ", "toml++ ", "CLP ", "Boost ", "CLI11 ", "sanitizers: "):
        check("--version", re.search(re.escape(fact) + r"\w", "\n".join(lines)), f"does not tell of {fact}")
    check("--version", not re.search(r"/|\d{4}-\d\d|\d\d:\d\d", "\n".join(lines)), "tells of a path or a day")


def main():
    program, share = str(pathlib.Path(sys.argv[1]).resolve()), pathlib.Path(sys.argv[2]).resolve()
    pages = share / "man" / "man1"
    bash = share / "bash-completion" / "completions" / "heapwright"
    bash_text, zsh_text, fish_text = (path.read_text(encoding="utf-8") for path in
                                      (bash, share / "zsh/site-functions/_heapwright", share / "fish/vendor_completions.d/heapwright.fish"))
    of_program = run(program, "--help").stdout
    commands = re.findall(r"^  ([a-z]+)  ", of_program.partition("Subcommands:")[2], re.MULTILINE)
    check("--help", len(commands) > 10, f"lists {commands}")
    check("man pages", {path.name for path in pages.iterdir()} == {"heapwright.1"} | {f"heapwright-{name}.1" for name in commands}, "are of others")
    check("heapwright.1", in_man_page(pages / "heapwright.1") == set(options_of(of_program)), "other options than --help")
    check("zsh", re.findall(r"^ +'([a-z]+):", zsh_text, re.MULTILINE) == commands, "other commands")
    check("fish", re.findall(r"-n __fish_use_subcommand -a ([a-z]+) ", fish_text) == commands, "other commands")
    check("bash", re.search(r"arguments='(.*)'", bash_text)[1].split() == commands, "other commands")
    for command in commands:
        text = run(program, command, "--help").stdout
        options = options_of(text)
        check(f"{command} --help", {"--help", "--json", "--today"} <= set(options) and all(says for _, says in options.values()), f"{options}")
        found = in_man_page(pages / f"heapwright-{command}.1")
        check(f"heapwright-{command}.1", found == set(options), f"{found ^ set(options)} differ from --help")
        examples = (pages / f"heapwright-{command}.1").read_text(encoding="utf-8").partition(".SH EXAMPLES")[2]
        check(f"heapwright-{command}.1", " examples/" not in examples, "names an example where only the sources have it")
        check_bash(bash_text, command, options)
        check_zsh(zsh_text, command, options)
        check_fish(fish_text, command, options)
        first = (arguments_of(text) + [None])[0]
        check(f"bash {command}", first is None or f"arguments={first}\n" in case_of(bash_text, command), f"takes no {first}")
    lint = run(*LINTS, *sorted(str(path) for path in pages.iterdir()))
    check("mandoc", lint.returncode == 0, lint.stdout + lint.stderr)
    check_bash_at_work(bash, commands)
    check_version(program)
    print("\n".join(failures[:40]))
    print(f"{checks} checks of {len(commands)} commands, {len(failures)} failures")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
