#include "heapwright/guide/yard_text.hpp"

#include <algorithm>
#include <optional>
#include <utility>

#include "heapwright/guide/plain.hpp"
#include "heapwright/materials/embedded.hpp"
#include "heapwright/pile/description.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

/// The answers, and an empty one for what was not asked.
class Given {
 public:
  explicit Given(const Replies& answers) : answers_(answers) {}
  std::string text(const std::string& question, std::size_t which = 0) const {
    const std::vector<std::string>& texts = answer(question).texts;
    return which < texts.size() ? texts[which] : std::string();
  }
  std::size_t count(const std::string& question) const { return answer(question).texts.size(); }
  const std::vector<Thing>& things(const std::string& question) const { return answer(question).things; }
  bool is_answered(const std::string& question) const { return answers_.count(question) != 0; }
  bool is(const std::string& question, const std::string& what) const { return answer(question).is.count(what) != 0; }

 private:
  const Reply& answer(const std::string& question) const {
    static const Reply not_asked;
    const auto found = answers_.find(question);
    return found == answers_.end() ? not_asked : found->second;
  }
  const Replies& answers_;
};

std::string toml_text(const std::string& text) {
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') quoted += '\\';
    quoted += c;
  }
  return quoted + "\"";
}

std::string key(const std::string& name, const std::string& text) { return name + " = " + toml_text(text) + "\n"; }

std::string supply(const std::string& feedstock) { return "\n[[supply]]\n" + key("feedstock", feedstock); }

std::string treated(const Given& given, const std::string& question) {
  if (given.is(question, "unknown")) return "treated = \"unknown\"                    # find out, then write \"no\" or \"yes\"\n";
  return key("treated", given.is(question, "some") ? "yes" : "no");
}

std::string pile(const Given& given, const std::string& question) {
  return "estimate = { pile = [" + toml_text(given.text(question, 0)) + ", " + toml_text(given.text(question, 1)) + ", " +
         toml_text(given.text(question, 2)) + "] }\n";
}

std::string leaves(const Given& given) {
  if (given.is("leaves", "pile")) return supply("leaves-fall") + pile(given, "leaves");
  if (given.is("leaves", "some")) return supply("leaves-fall") + key("amount", given.text("leaves"));
  if (given.is("trees", "some"))
    return supply("leaves-fall") + "estimate = { trees = " + given.text("trees") + " }            # count the bags when you have raked\n";
  if (given.is("trees", "unknown"))
    return supply("leaves-fall") +
           "estimate = { trees = 1 }               # not known, so one tree: count your trees, or better the bags\n";
  return {};
}

std::string clippings(const Given& given) {
  const std::string season = "when = { every = \"week\", from = \"Apr\", to = \"Oct\" }\n";
  if (given.is("clippings", "pile")) return supply("grass-clippings") + pile(given, "clippings") + treated(given, "treated");
  if (given.is("clippings", "some"))
    return supply("grass-clippings") + key("amount", given.text("clippings")) + season + treated(given, "treated");
  if (!given.is("clippings", "unknown")) return {};
  if (!given.is("lawn", "some")) return "\n# Clippings: not known, and there is no lawn measured to go by, so they are left out.\n";
  return supply("grass-clippings") + "estimate = { mown_lawn = " + toml_text(given.text("lawn")) +
         " }   # count the buckets of a mowing\n" + season + treated(given, "treated");
}

std::string scraps(const Given& given) {
  if (!given.is("scraps", "some")) return {};
  return supply("kitchen-scraps") + "estimate = { people = " + given.text("scraps") + " }           # weigh a week's pail when you can\n" +
         "when = { every = \"week\" }\n";
}

std::string others(const Given& given) {
  std::string text;
  for (const Thing& thing : given.things("other")) {
    text += supply(thing.feedstock);
    if (!thing.packing.empty()) text += key("packing", thing.packing);
    text += key("amount", thing.amount);
    if (thing.herbicide) text += treated(given, "treated-other");
  }
  return text;
}

std::string bin(const Given& given) {
  if (given.is("bin", "volume")) return key("shape", "tumbler") + key("volume", given.text("bin"));
  if (given.is("bin", "round")) return key("shape", "round") + key("diameter", given.text("bin", 0)) + key("height", given.text("bin", 1));
  if (given.is("bin", "some"))
    return key("shape", "bin") + key("length", given.text("bin", 0)) + key("width", given.text("bin", 1)) +
           key("height", given.text("bin", 2));
  return key("shape", "bin") + "length = \"4 ft\"                         # not known: measure the bin or the place\n" +
         key("width", "4 ft") + key("height", "4 ft");
}

std::string pile(const Given& given, Date today) {
  const std::string built = given.is("built", "some") ? given.text("built") : print_date(today);
  const bool more_comes = given.is("scraps", "some") || given.is("clippings", "some");
  return "\n[pile]\n" + bin(given) + "built = " + built + "\n" + (more_comes ? key("filled", "as-it-comes") : "") +
         key("turn_every", given.is("turn", "some") ? given.text("turn") : "never");
}

std::string climate(const Given& given) {
  if (!given.is("winter", "some")) return {};
  if (given.count("winter") == 1) return "\n[climate]\n" + key("like", given.text("winter"));
  return "\n[climate]\n" + key("coldest_month", given.text("winter", 0)) + key("warmest_month", given.text("winter", 1));
}

std::string lawn(const Given& given) {
  if (given.is("lawn", "unknown"))
    return "\n# The lawn is not measured yet. Pace it off and write:\n# [[lawn.zone]]\n# shape = \"rectangle\"\n# length = \"60 ft\"\n# "
           "width = \"30 ft\"\n";
  if (!given.is("lawn", "some")) return {};
  const std::string zone = "\n[[lawn.zone]]\nname = \"lawn\"\nshape = \"area\"\n" + key("area", given.text("lawn"));
  if (!given.is_answered("near-water")) return zone;
  const bool near_water = given.is("near-water", "some") || given.is("near-water", "unknown");
  return zone + "\n[topdressing]\nnear_water = " + (near_water ? "true" : "false") + "\n";
}

std::string load(const SaidLoad& said) {
  std::string text = "\n[[load]]\ndate = " + print_date(said.load.date) + "\n";
  if (const std::optional<Supply>& supply = said.load.supply) {
    text += key("feedstock", supply->feedstock.id);
    if (!supply->packing_assumed) text += key("packing", supply->packing);
    text += key("amount", said.amount);
    if (supply->treated) text += key("treated", std::string(treated_word(*supply->treated)));
  } else {
    text += key("water", said.amount);
  }
  return text;
}

/// Whether most lines of a file end as Windows ends them.
bool ends_lines_with_returns(const std::string& file) {
  const auto lines = std::count(file.begin(), file.end(), '\n');
  std::ptrdiff_t with_returns = 0;
  for (std::size_t at = file.find("\r\n"); at != std::string::npos; at = file.find("\r\n", at + 2)) ++with_returns;
  return 2 * with_returns > lines;
}

}  // namespace

std::string with_loads(std::string file, const std::vector<SaidLoad>& loads) {
  std::string added = file.empty() || file.ends_with('\n') ? "" : "\n";
  for (const SaidLoad& said : loads) added += load(said);
  if (ends_lines_with_returns(file)) replace_all(added, "\n", "\r\n");
  return std::move(file) + added;
}

std::string yard_text(const Replies& answers, Date today) {
  const Given given(answers);
  return "# Your yard, as you described it. Change what you like; `heapwright plan` reads it again.\ntitle = \"My yard\"\n" +
         leaves(given) + clippings(given) + scraps(given) + others(given) + pile(given, today) + climate(given) + lawn(given);
}

std::string starter_yard_text() { return std::string(embedded_starter()); }

}  // namespace heapwright
