"""Pages as their readers see them: on paper, on a phone, by a validator and by those who read with a screen reader. By hand.

usage: look_at_pages.py FOLDER FILE.html...

Of each page FOLDER gets a PDF for US Letter and one for A4, their sides as pictures, and screenshots of 360 and 1200 px. It tells how
many sides each has and how full the last is, and what html-validate and axe-core find. Wants Debian's chromium, nodejs and
poppler-utils, and in FOLDER: npm install html-validate axe-core puppeteer-core
"""
import pathlib
import subprocess
import sys

LOOK = """
const fs = require('fs'), puppeteer = require('puppeteer-core');
const axe = fs.readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');
(async () => {
  const browser = await puppeteer.launch({executablePath: '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu']});
  for (const file of process.argv.slice(2)) {
    const stem = process.cwd() + '/' + file.replace(/^.*\\//, '').replace(/\\.html$/, '');
    const page = await browser.newPage();
    const fetched = [];
    page.on('request', one => { if (!one.url().startsWith('file:')) fetched.push(one.url()); });
    await page.goto('file://' + file);
    for (const width of [360, 1200]) {
      await page.setViewport({width, height: 800});
      await page.screenshot({path: `${stem}-${width}.png`, fullPage: true});
      const wide = await page.evaluate(() => document.documentElement.scrollWidth);
      if (wide > width) console.log(`${stem}: ${wide} px wide on a screen of ${width}`);
    }
    await page.evaluate(axe);
    const found = await page.evaluate(() => axe.run());
    for (const one of found.violations)
      console.log(`${stem}: axe ${one.id}: ${one.help}: ${one.nodes.slice(0, 3).map(node => node.html.slice(0, 120)).join(' | ')}`);
    if (fetched.length) console.log(`${stem}: fetched ${fetched}`);
    for (const format of ['Letter', 'A4']) await page.pdf({path: `${stem}-${format}.pdf`, format, preferCSSPageSize: false});
    await page.close();
  }
  await browser.close();
})();
"""
VALID = '{"extends": ["html-validate:recommended"], "rules": {"no-trailing-whitespace": "off", "long-title": "off"}}'


def sides(pdf):
    told = subprocess.run(["pdfinfo", str(pdf)], capture_output=True, text=True, check=True).stdout
    return int(next(line for line in told.splitlines() if line.startswith("Pages:")).split()[1])


def room_left(pdf, side):
    """Of a side how much below its last line is empty, in points."""
    told = subprocess.run(["pdftotext", "-bbox", "-f", str(side), "-l", str(side), str(pdf), "-"], capture_output=True, text=True).stdout
    ends = [float(line.split('yMax="')[1].split('"')[0]) for line in told.splitlines() if "<word" in line]
    high = float(told.split('height="')[1].split('"')[0])
    return high - max(ends, default=0)


def main(folder, *files):
    folder = pathlib.Path(folder).resolve()
    paths = [pathlib.Path(file).resolve() for file in files]
    (folder / "look.cjs").write_text(LOOK)
    (folder / ".htmlvalidate.json").write_text(VALID)
    subprocess.run(["node", "look.cjs", *map(str, paths)], cwd=folder, check=True)
    for path in paths:
        copy = folder / path.name
        if copy != path:
            copy.write_bytes(path.read_bytes())
        told = subprocess.run(["node_modules/.bin/html-validate", path.name], cwd=folder, capture_output=True, text=True)
        if told.returncode:
            print(told.stdout[:2000])
        for size in ("Letter", "A4"):
            pdf = folder / f"{path.stem}-{size}.pdf"
            left = [round(room_left(pdf, side)) for side in range(1, sides(pdf) + 1)][:6]
            print(f"{path.stem} on {size}: {sides(pdf)} sides, points left below each: {left}")
            subprocess.run(["pdftoppm", "-r", "70", "-png", str(pdf), str(pdf.with_suffix(""))], check=True)


if __name__ == "__main__":
    main(*sys.argv[1:])
