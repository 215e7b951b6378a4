"""The chart of a page that has some title, as a file of its own, to standard output.

usage: chart_of_page.py PAGE.html TITLE
"""
import re
import sys

page = open(sys.argv[1], encoding="utf-8").read()
charts = re.findall(r"<svg .*?</svg>\n", page, re.S)
print(next(chart for chart in charts if f"<title>{sys.argv[2]}</title>" in chart), end="")
