#include <algorithm>
#include <fcntl.h>
#include <memory>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "command.hpp"
#include "heapwright/guide/said_load.hpp"
#include "heapwright/guide/yard_text.hpp"
#include "heapwright/input/document.hpp"
#include "heapwright/input/file.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/report/json.hpp"

namespace heapwright::cli {
namespace {

struct LoadOptions {
  CommonOptions common;
  std::string file;
  std::vector<std::string> texts;
  std::string date;
  std::vector<std::string> treated;
};

Date day_of_load(const LoadOptions& options, const Yard& yard) {
  const Date today = options.common.today();
  const Date day = options.date.empty() ? today : read_option("--date", options.date, read_date);
  const std::string written = print_date(day);
  if (day > today)
    throw TextError("--date: " + written + " is after today, " + print_date(today), "write down what is in the pile already");
  if (!yard.pile || !yard.pile->built || day >= *yard.pile->built) return day;
  const bool is_planned = *yard.pile->built > today;
  throw TextError(written + (is_planned ? " is before the day that the pile is planned for, " : " is before the pile was built, ") +
                      print_date(*yard.pile->built),
                  (is_planned ? "if it is begun now, write built = " + written + " in [pile] of "
                              : "name another day with --date, or correct built in [pile] of ") +
                      options.file);
}

/// As a shell gives words that were not told to stay together: "2" "buckets" "leaves".
bool are_torn_apart(const std::vector<std::string>& texts) {
  return texts.size() > 1 &&
         std::none_of(texts.begin(), texts.end(), [](const std::string& text) { return text.find(' ') != std::string::npos; });
}

std::string in_one(const std::vector<std::string>& texts) {
  std::string joined;
  for (const std::string& text : texts) joined += (joined.empty() ? "" : " ") + text;
  return joined;
}

std::vector<SaidLoad> read_texts(const std::vector<std::string>& texts, Date day, const Materials& materials) {
  std::vector<SaidLoad> loads;
  for (const std::string& text : texts) {
    const std::vector<SaidLoad> said = said_loads(text, day, materials);
    if (said.empty()) throw TextError("\"" + text + "\" is nothing that went in", "write \"2 buckets leaves\"");
    loads.insert(loads.end(), said.begin(), said.end());
  }
  return loads;
}

std::vector<SaidLoad> read_whole_texts(const std::vector<std::string>& texts, Date day, const Materials& materials) {
  try {
    return read_texts(texts, day, materials);
  } catch (const KeptOut&) {
    throw;
  } catch (const TextError& error) {
    if (!are_torn_apart(texts)) throw;
    throw TextError(error.what(), "put quotes around words that belong together: \"" + in_one(texts) + "\"");
  }
}

/// "yes" of all that can carry a weedkiller on, or "hay=yes" of the one.
bool record_treated(std::vector<SaidLoad>& loads, std::string_view words, const Materials& materials) {
  const std::size_t equals = words.find('=');
  const bool of_one = equals != std::string_view::npos;
  const std::string_view word = of_one ? words.substr(equals + 1) : words;
  const std::optional<Treated> answer = treated_called(word);
  if (!answer) throw TextError("\"" + std::string(word) + "\" is neither yes, no nor unknown", "write --treated no, or --treated hay=no");
  const Feedstock* named = of_one ? &find_feedstock(materials, words.substr(0, equals)) : nullptr;
  bool found = false;
  for (SaidLoad& said : loads) {
    std::optional<Supply>& supply = said.load.supply;
    if (!supply || !(named != nullptr ? supply->feedstock.id == named->id : supply->feedstock.has_tag("herbicide"))) continue;
    supply->treated = answer;
    found = true;
  }
  if (found) return true;
  if (named != nullptr) throw TextError("no " + named->name + " is added", "leave it out, or add it");
  throw TextError("nothing that is added can carry a weedkiller on", "leave it out; it is for clippings, hay, straw and manure");
}

/// The yard as it will be. @throws TextError where its file could not be read with the new loads
Yard yard_with(const std::string& text, const LoadOptions& options) {
  const std::string left = options.file + " is left as it is: with this in it, ";
  if (text.size() > Document::largest_file) throw TextError(left + "it would be larger than 1 MiB", "join the loads of a day");
  try {
    return read_yard_to_be(text, options.file, options.common.tables(), options.common.base);
  } catch (const InputError& error) {
    throw TextError(left + "it could not be read:\n" + error.what(), error.hint());
  }
}

/// A file that one run at a time adds to: the next waits for its end. Of what cannot be opened the reader says why.
class OneAtATime {
 public:
  explicit OneAtATime(const std::string& file) {
    do {
      close_file();
      descriptor_ = open(file.c_str(), O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
    } while (descriptor_ >= 0 && flock(descriptor_, LOCK_EX) == 0 && is_replaced(file));
  }
  OneAtATime(const OneAtATime&) = delete;
  OneAtATime& operator=(const OneAtATime&) = delete;
  ~OneAtATime() { close_file(); }

 private:
  /// By who had it before.
  bool is_replaced(const std::string& file) const {
    struct stat locked {};
    struct stat now {};
    return fstat(descriptor_, &locked) == 0 && stat(file.c_str(), &now) == 0 &&
           (locked.st_ino != now.st_ino || locked.st_dev != now.st_dev);
  }
  void close_file() const {
    if (descriptor_ >= 0) close(descriptor_);
  }

  int descriptor_ = -1;
};

/// Puts the new text in the place of the one it was made from.
void replace_text(const std::string& file, const std::string& before, const std::string& after) {
  if (contents_of(file, yard_file_kind()) != before)
    throw TextError(file + " was changed by somebody else meanwhile: nothing is added", "save it there, then do this again");
  write_whole("", file, after, true);
}

/// @throws TextError where it cannot be told, which says that it was done, so that nobody does it again
void tell_added(const LoadOptions& options, const std::vector<Load>& added, const Yard& yard) {
  try {
    options.common.print_answer([&] { return json_of_loads(added, yard.loads); },
                                [&] { return added_loads_page(added, yard.loads, options.file, yard.tables.materials); },
                                options.common.show(yard.units));
  } catch (const TextError& error) {
    throw TextError("it is added to " + options.file + ", but " + error.what(), error.hint());
  }
}

ExitCode add_loads(const LoadOptions& options, const Yard& yard, const std::string& before) {
  const Materials& materials = yard.tables.materials;
  std::vector<SaidLoad> said = read_whole_texts(options.texts, day_of_load(options, yard), materials);
  for (const std::string& text : options.treated)
    read_option("--treated", text, [&](std::string_view words) { return record_treated(said, words, materials); });
  const std::string after = with_loads(before, said);
  const Yard with_them = yard_with(after, options);
  replace_text(options.file, before, after);
  std::vector<Load> added;
  for (SaidLoad& load : said) added.push_back(std::move(load.load));
  tell_added(options, added, with_them);
  return done;
}

ExitCode list_loads(const LoadOptions& options, const Yard& yard) {
  if (!options.date.empty() || !options.treated.empty())
    throw TextError("nothing is said to have gone in", "write it in quotes: heapwright load " + options.file + " \"2 buckets leaves\"");
  options.common.print_answer([&] { return json_of_loads({}, yard.loads); },
                              [&] { return loads_page(yard.loads, options.file, yard.tables.materials); }, options.common.show(yard.units));
  return done;
}

ExitCode run_load(const LoadOptions& options) {
  options.common.check_files(options.file);
  if (options.texts.empty()) return list_loads(options, options.common.yard(options.file));
  const OneAtATime turn(options.file);
  const Yard yard = options.common.yard(options.file);
  return add_loads(options, yard, contents_of(options.file, yard_file_kind()));
}

}  // namespace

void add_load_command(CLI::App& program, ChosenCommand& chosen) {
  auto options = std::make_shared<LoadOptions>();
  CLI::App* command = program.add_subcommand("load", "write down what went into the pile, or list it");
  command->add_option("file", options->file, "a yard file, to which it is added")->type_name(takes::toml)->required();
  command->add_option("what", options->texts, "what went in, \"2 buckets leaves\"; none: list what did so far");
  command->add_option("--date", options->date, "the day it went in, 2026-11-07; else today");
  command->add_option("--treated", options->treated, "weedkiller where it grew: yes, no or unknown, or \"hay=no\"")
      ->take_all()
      ->allow_extra_args(false);
  options->common.add_to(*command);
  command->footer(
      "Examples:\n  heapwright load my-yard.toml \"2 buckets leaves\" \"1 gal water\"\n"
      "  heapwright load my-yard.toml \"grass 3 buckets\" --date 2026-11-07\n  heapwright load my-yard.toml");
  command->callback([options, &chosen] { chosen = [options] { return run_load(*options); }; });
}

}  // namespace heapwright::cli
