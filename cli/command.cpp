#include "command.hpp"

#include <algorithm>
#include <cerrno>
#include <chrono>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <sys/ioctl.h>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>
#include <utility>

#include "heapwright/guide/things.hpp"
#include "heapwright/input/printable.hpp"
#include "scratch_file.hpp"

namespace heapwright::cli {
namespace {

namespace fs = std::filesystem;

/// The file that a link leads to; of a link to nothing the link itself.
fs::path behind_link(const fs::path& path) {
  std::error_code trouble;
  const fs::path whole = fs::canonical(path, trouble);
  return trouble ? path : whole;
}

/// rw-rw-rw- less what the person's umask takes away, as any program makes a file. Asked once: to ask is to set it for a moment, for all
/// threads.
mode_t mode_of_new_file() {
  static const mode_t mode = [] {
    constexpr mode_t all_read_and_write = 0666;
    const mode_t taken_away = umask(0);
    umask(taken_away);
    return all_read_and_write & ~taken_away;
  }();
  return mode;
}

[[noreturn]] void fail_to_write(const std::string& option, const std::string& path, const std::error_code& why) {
  throw TextError(option + path + " cannot be written: " + why.message(), "check the name and the folder, or name another file");
}

/// Its folder would let it be replaced all the same.
bool is_protected(const std::string& file) {
  constexpr fs::perms writes = fs::perms::owner_write | fs::perms::group_write | fs::perms::others_write;
  std::error_code trouble;
  const bool none_may = (fs::status(file, trouble).permissions() & writes) == fs::perms::none;
  return none_may || access(file.c_str(), W_OK) != 0;
}

void check_free(const std::string& option, const std::string& path, bool force) {
  std::error_code trouble;
  const fs::file_type kind = fs::symlink_status(path, trouble).type();
  if (kind == fs::file_type::none) fail_to_write(option, path, trouble);
  if (fs::is_directory(path, trouble)) throw TextError(option + path + " is a folder", "name a file in it");
  const bool exists = fs::exists(path, trouble);
  if (exists && !fs::is_regular_file(path, trouble)) throw TextError(option + path + " is no plain file", "name another");
  if (exists && !force) throw TextError(option + path + " exists already", "name another file, or add --force");
  if (exists && is_protected(path))
    throw TextError(option + path + " may only be read", "name another file, or allow writing to it: chmod u+w " + path);
  if (kind == fs::file_type::symlink && !exists && !force)
    throw TextError(option + path + " is a link to a file that is not there", "name another file, or add --force to replace the link");
  const fs::path folder = fs::absolute(path, trouble).parent_path();
  if (folder.empty()) fail_to_write(option, path, trouble);  // the folder that one stands in is gone
  if (!fs::is_directory(folder, trouble))
    throw TextError(option + path + " cannot be written: there is no folder " + folder.string(), "make it first, or name another file");
}

bool is_one_file(const std::string& one, const std::string& other) {
  std::error_code trouble;
  if (fs::equivalent(one, other, trouble)) return true;
  const auto whole = [&](const std::string& path) { return fs::weakly_canonical(fs::absolute(path, trouble), trouble); };
  return whole(one) == whole(other);
}

bool is_option(const NamedFile& file) { return file.is.starts_with("--"); }

/// "--html: ", where that is what names it.
std::string option_of(const NamedFile& file) { return is_option(file) ? file.is + ": " : ""; }

void check_apart(const NamedFile& written, const NamedFile& other) {
  if (written.path.empty() || other.path.empty() || !is_one_file(written.path, other.path)) return;
  throw TextError(option_of(written) + written.path + " is " + (is_option(other) ? "the file of " : "") + other.is, "name another file");
}

/// By the clock, which is read nowhere else.
Date day_of_the_clock() {
  const std::time_t now = std::time(nullptr);
  const std::tm* local = std::localtime(&now);
  return {std::chrono::year(local->tm_year + 1900), std::chrono::month(static_cast<unsigned>(local->tm_mon) + 1),
          std::chrono::day(static_cast<unsigned>(local->tm_mday))};
}

/// "hay=yes", of all of it that the yard has.
bool set_treated(Yard& yard, std::string_view words) {
  const std::size_t equals = words.find('=');
  const std::string hint = "write --treated \"hay=no\", yes or unknown";
  if (equals == std::string_view::npos) throw TextError("\"" + std::string(words) + "\" does not say whether", hint);
  const std::optional<Treated> answer = treated_called(words.substr(equals + 1));
  if (!answer) throw TextError("\"" + std::string(words.substr(equals + 1)) + "\" is neither yes, no nor unknown", hint);
  const Feedstock& feedstock = find_feedstock(yard.tables.materials, words.substr(0, equals));
  bool found = false;
  for (Supply& supply : yard.supplies) {
    if (supply.feedstock.id != feedstock.id) continue;
    supply.treated = answer;
    found = true;
  }
  if (!found) throw TextError("there is no " + feedstock.name + " among what is on hand", "add it with --have");
  return found;
}

/// A terminal whose locale is of UTF-8.
bool shows_block_characters() {
  if (!isatty(STDOUT_FILENO)) return false;
  for (const char* name : {"LC_ALL", "LC_CTYPE", "LANG"}) {
    const char* value = std::getenv(name);
    if (value == nullptr || *value == '\0') continue;
    const std::string locale(value);
    return locale.find("UTF-8") != std::string::npos || locale.find("utf8") != std::string::npos;
  }
  return false;
}

/// As wide as the terminal is, but no wider than is easily read; in a pipe as usual.
std::size_t width_of_terminal() {
  constexpr std::size_t widest = 100;
  winsize size{};
  if (isatty(STDOUT_FILENO) == 0 || ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col == 0) return Screen().width;
  return std::clamp<std::size_t>(size.ws_col, narrowest_screen, widest);
}

}  // namespace

void CommonOptions::add_to(CLI::App& command) {
  command.add_flag("--why", why, "also why: figures, ranges, other ways");
  command.add_flag("--all", all, "all of it: assumptions with their sources, every caution too");
  command.add_option("--html", html, "write all of it to a file, as a page to print or send")->type_name(takes::file);
  command.add_flag("--json", json, "print JSON (SI units) for other programs");
  command.add_option("--units", units, "how amounts are shown: us, si or both")->check(CLI::IsMember({"us", "si", "both"}));
  command.add_option("--materials", materials_file, "a file with feedstocks of your own")->type_name(takes::toml);
  command.add_option("--base", base, "office, climate, prices where the yard has none")->type_name(takes::toml);
  command.add_option_function<std::string>(
      "--today", [this](const std::string& text) { asked_today = read_option("--today", text, read_date); },
      "the day to count from, 2026-11-07, in place of the clock's");
  command.add_option("--output", output, "write to a file instead of the screen")->type_name(takes::file);
  command.add_flag("--force", force, "overwrite the output file");
}

Tables CommonOptions::tables() const { return materials_file.empty() ? built_in_tables() : tables_with(materials_file); }

void CommonOptions::check_csv_alone(bool csv) const {
  if (csv && (json || !html.empty())) throw TextError("--csv is neither JSON nor a page", "leave out --json and --html");
}

std::vector<NamedFile> CommonOptions::all_written(std::vector<NamedFile> written) const {
  written.insert(written.end(), {{"--html", html}, {"--output", output}});
  return written;
}

void CommonOptions::check_files(const std::string& yard_file, std::vector<NamedFile> read, std::vector<NamedFile> written) const {
  read.insert(read.end(), {{"the yard file", yard_file}, {"--materials", materials_file}, {"--base", base}});
  for (const NamedFile& file : all_written(std::move(written))) {
    if (file.path.empty()) continue;
    for (const NamedFile& other : read) check_apart(file, other);
    check_writable(option_of(file), file.path, force);
    read.push_back(file);  // nor may the next be the same
  }
}

Date CommonOptions::today() const { return asked_today ? *asked_today : day_of_the_clock(); }

ShownUnits CommonOptions::shown_units(ShownUnits of_yard) const {
  for (const auto& [word, meaning] : shown_units_words()) {
    if (word == units) return meaning;
  }
  return of_yard;
}

Show CommonOptions::show(ShownUnits of_yard) const { return Show(shown_units(of_yard)); }

Yard CommonOptions::yard(const std::string& file, const std::vector<NamedFile>& written) const {
  if (fs::path(file).extension() == ".csv")
    throw TextError(file + " is a table, and a yard file is wanted",
                    "a log of temperatures is given with: heapwright readings --log " + file);
  std::error_code trouble;
  if (!fs::path(file).has_extension() && !fs::exists(file, trouble))
    throw TextError(
        "there is no file " + file,
        "put words that belong together in quotes, --have \"leaves=20 bags\"; the name of a yard file has its ending, my-yard.toml");
  Yard yard = read_yard(file, tables(), base);
  for (const NamedFile& one : all_written(written)) {
    for (const std::string& path : yard.files) check_apart(one, {"a file that " + file + " names", path});
  }
  yard.units = shown_units(yard.units);
  return yard;
}

Yard CommonOptions::yard_of_options() const {
  Yard yard = read_yard_text({}, {}, tables(), base);
  yard.units = shown_units(yard.units);
  return yard;
}

void CommonOptions::print(const std::string& text) const {
  const std::string safe = json ? printable_json(text) : printable(text);
  if (output.empty()) {
    to_standard_output(safe);
  } else {
    write_whole("--output: ", output, safe, force);
  }
}

Screen CommonOptions::screen() const {
  const Depth depth = all ? Depth::ground : why ? Depth::why : Depth::act;
  return {output.empty() ? width_of_terminal() : Screen().width, depth, output.empty() && shows_block_characters()};
}

void CommonOptions::print_answer(const std::function<std::string()>& as_json, const std::function<Page()>& as_page,
                                 const Show& shown) const {
  if (!html.empty()) write_whole("--html: ", html, printable(html_of(as_page(), shown)), force);
  print_on_screen(as_json, as_page, shown);
}

void CommonOptions::print_on_screen(const std::function<std::string()>& as_json, const std::function<Page()>& as_page,
                                    const Show& shown) const {
  print(json ? as_json() : text_of(as_page(), shown, screen()));
}

void WorkingOption::add_to(CLI::App& command) {
  command.add_flag("--show-working", asked, "show each step: formula, numbers, result, source");
}

const WorkingUnits& WorkingOption::units(const CommonOptions& common, const Show& show) const {
  return show.in_us_units() && !common.json ? us_working_units() : si_working_units();
}

void to_standard_output(const std::string& text) {
  errno = 0;
  std::cout << text << std::flush;
  if (std::cout) return;
  const std::string why = errno == 0 ? "" : ": " + std::generic_category().message(errno);
  throw TextError("standard output cannot be written" + why, "is the disk full, or the pipe closed?");
}

void check_writable(const std::string& option, const std::string& path, bool force) {
  check_free(option, path, force);
  try {
    const ScratchFile attempt(behind_link(path));  // what a folder allows is known for sure when it is tried
  } catch (const std::system_error& error) {
    fail_to_write(option, path, error.code());
  }
}

WholeFile::WholeFile(std::string option, std::string path, bool force, Readers readers)
    : option_(std::move(option)), path_(std::move(path)), readers_(readers) {
  check_free(option_, path_, force);
  or_fail([&] { scratch_ = std::make_unique<ScratchFile>(behind_link(path_)); });
}

WholeFile::~WholeFile() = default;

void WholeFile::add(const std::string& text) {
  or_fail([&] { scratch_->add(text); });
}

void WholeFile::put_in_place() {
  constexpr mode_t read_and_write_by_owner = 0600;
  or_fail([&] { scratch_->put_in_place(readers_ == Readers::its_owner ? read_and_write_by_owner : mode_of_new_file()); });
}

void WholeFile::or_fail(const std::function<void()>& step) const {
  try {
    step();
  } catch (const std::system_error& error) {
    fail_to_write(option_, path_, error.code());
  }
}

void write_whole(const std::string& option, const std::string& path, const std::string& text, bool force, Readers readers) {
  WholeFile file(option, path, force, readers);
  file.add(text);
  file.put_in_place();
}

std::optional<std::string> text_of_file(const std::string& path) {
  std::error_code trouble;
  if (!fs::is_regular_file(path, trouble)) return std::nullopt;  // a pipe would be waited for
  std::ifstream stream(path, std::ios::binary);
  if (!stream) return std::nullopt;
  return std::string(std::istreambuf_iterator<char>(stream), {});
}

Supply read_supply_option(const std::string& option, const std::string& text, const Materials& materials) {
  return read_option(option, text, [&](std::string_view words) {
    try {
      return read_said_supply(words, materials);
    } catch (const SeveralThings& several) {
      std::string each;
      for (const std::string& one : several.each()) each += " " + option + " \"" + one + "\"";
      throw TextError(several.what(), "write each by itself:" + each);
    }
  });
}

void add_supplies(Yard& yard, const std::string& option, const std::vector<std::string>& texts) {
  const std::size_t count = yard.supplies.size() + texts.size();
  if (count > most_supplies)
    throw TextError(
        option + ": " + std::to_string(count) + " supplies are more than the " + std::to_string(most_supplies) + " that one yard may list",
        "join some");
  for (const std::string& text : texts) yard.supplies.push_back(read_supply_option(option, text, yard.tables.materials));
  tell_apart(yard.supplies);
}

void HaveOptions::add_to(CLI::App& command) {
  command.add_option("--have", have, "what is on hand, \"20 bags of leaves\"; once for each")->take_all()->allow_extra_args(false);
  command.add_option("--treated", treated, "weedkiller where it grew, \"hay=no\"; once for each")->take_all()->allow_extra_args(false);
}

void HaveOptions::apply(Yard& yard) const {
  add_supplies(yard, "--have", have);
  for (const std::string& text : treated) read_option("--treated", text, [&](std::string_view words) { return set_treated(yard, words); });
}

}  // namespace heapwright::cli
