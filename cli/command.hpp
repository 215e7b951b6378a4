#pragma once
/// What all commands share: their common options, and how an option's text is read.

#include <CLI/CLI.hpp>

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "heapwright/error.hpp"
#include "heapwright/page/page.hpp"
#include "heapwright/plan/plan.hpp"
#include "heapwright/report/layout.hpp"
#include "heapwright/report/show.hpp"
#include "heapwright/units/text.hpp"
#include "heapwright/working/working_units.hpp"
#include "heapwright/yard/yard.hpp"

namespace heapwright::cli {

enum ExitCode { done = 0, no_answer = 1, bad_input = 2, our_fault = 3 };

/// What an option or argument takes, as its help names it; completion goes by it.
namespace takes {
constexpr const char* toml = "TOML";
constexpr const char* csv = "CSV";
constexpr const char* file = "FILE";
constexpr const char* folder = "FOLDER";
}  // namespace takes

/// A file of the command line.
struct NamedFile {
  std::string is;  ///< "the yard file", "--calendar"
  std::string path;
};

/// --why, --all, --html, --json, --units, --materials, --base, --today, --output, --force.
struct CommonOptions {
  bool why = false;
  bool all = false;
  std::string html;
  bool json = false;
  std::string units;
  std::string materials_file;
  std::string base;
  std::optional<Date> asked_today;
  std::string output;
  bool force = false;

  void add_to(CLI::App& command);
  Tables tables() const;
  /// The day asked for, else the clock's.
  Date today() const;
  ShownUnits shown_units(ShownUnits of_yard) const;
  /// The units asked for, else those of the yard.
  Show show(ShownUnits of_yard = ShownUnits::us) const;
  /// As wide as the terminal, and as deep as was asked for.
  Screen screen() const;
  /// What is to be written (also --html and --output) can be, and is neither written twice nor one of those that are read (also the yard
  /// file, --materials and --base): before anything is. @throws TextError
  void check_files(const std::string& yard_file = {}, std::vector<NamedFile> read = {}, std::vector<NamedFile> written = {}) const;
  /// The yard of a file with the tables and the units asked for. @param written besides --html and --output: none of them may be a file
  /// that the yard names. @throws TextError
  Yard yard(const std::string& file, const std::vector<NamedFile>& written = {}) const;
  /// A yard without a file, for what options say.
  Yard yard_of_options() const;
  /// @throws TextError where JSON or a page is asked for beside CSV
  void check_csv_alone(bool csv) const;
  /// To standard output, or whole or not at all to the file asked for.
  void print(const std::string& text) const;
  /// An answer as JSON, or as a page on the screen; and as HTML where that was asked for.
  void print_answer(const std::function<std::string()>& as_json, const std::function<Page()>& as_page, const Show& show) const;
  /// The same without HTML.
  void print_on_screen(const std::function<std::string()>& as_json, const std::function<Page()>& as_page, const Show& show) const;

 private:
  std::vector<NamedFile> all_written(std::vector<NamedFile> written) const;
};

/// --show-working, of the commands whose results have steps to show.
struct WorkingOption {
  bool asked = false;

  void add_to(CLI::App& command);
  /// The units that the steps are written in: SI for JSON, else as the rest of the screen, in US units where it shows both.
  const WorkingUnits& units(const CommonOptions& common, const Show& show) const;
};

/// @throws TextError where it cannot be written
void to_standard_output(const std::string& text);

/// @throws TextError, which begins with the option's name, where a file is there already and not to be overwritten, has no folder, or
/// the folder takes none
void check_writable(const std::string& option, const std::string& path, bool force);
class ScratchFile;

/// Who may read a new file.
enum class Readers { as_usual, its_owner };

/// A file that is written piece by piece, and stands in its place when it is whole; of one that never is nothing is left. Where it is a
/// link, the file it leads to. All of it throws TextError, as check_writable().
class WholeFile {
 public:
  WholeFile(std::string option, std::string path, bool force, Readers readers = Readers::as_usual);
  WholeFile(const WholeFile&) = delete;
  WholeFile& operator=(const WholeFile&) = delete;
  ~WholeFile();
  void add(const std::string& text);
  void put_in_place();

 private:
  void or_fail(const std::function<void()>& step) const;

  std::string option_;
  std::string path_;
  Readers readers_;
  std::unique_ptr<ScratchFile> scratch_;
};
/// The text of a plain file; nothing for what is none, or cannot be read.
std::optional<std::string> text_of_file(const std::string& path);

/// Writes a file whole or not at all; where it is a link, the file it leads to. @throws TextError as check_writable(), or where it cannot
/// be written
void write_whole(const std::string& option, const std::string& path, const std::string& text, bool force,
                 Readers readers = Readers::as_usual);

/// "Symptoms: ants, flies" for "Symptoms:": the ids of a table's rows, for the end of a command's help.
template <class Rows>
std::string listed(const std::string& heading, const Rows& rows) {
  std::string text = heading;
  for (const auto& row : rows) text += (text.ends_with(':') ? " " : ", ") + row.id;
  return wrap(text, 2);
}

/// Reads an option's text; a TextError names the option.
template <class Read>
auto read_option(const std::string& option, const std::string& text, Read read) {
  try {
    return read(std::string_view(text));
  } catch (const TextError& error) {
    throw TextError(option + ": " + error.what(), error.hint());
  }
}

/// What is on hand, beside what a yard file lists.
struct HaveOptions {
  std::vector<std::string> have;     ///< "20 bags of leaves"
  std::vector<std::string> treated;  ///< "hay=yes": whether weedkiller was used where it grew

  void add_to(CLI::App& command);
  /// @throws TextError, which names the option
  void apply(Yard& yard) const;
};

/// "leaves-fall=6 leaf-bag" as a supply; without an amount as much as wanted.
Supply read_supply_option(const std::string& option, const std::string& text, const Materials& materials);
/// All of an option's texts, onto those of a yard. @throws TextError for more than a yard may list, before any is read
void add_supplies(Yard& yard, const std::string& option, const std::vector<std::string>& texts);

/// What a handout holds beside its plan.
struct HandoutOptions {
  bool shed_card = false;
  bool blank_log = false;
  std::vector<std::string> not_told{};  ///< what was assumed of a household, in words
};
/// Its two sides, and what is handed out with them, as an HTML file.
std::string handout_of(const Answer<Plan>& plan, const Yard& yard, const Show& show, const HandoutOptions& extra = {});
/// Prints the plan of a yard, and writes its handout where that was asked for. Its exit code: done, or no_answer where there is neither a
/// pile nor a lawn.
ExitCode print_plan(const CommonOptions& common, const Answer<Plan>& plan, const Yard& yard, const HandoutOptions& extra = {});

/// What a command line asks for: nothing before it is read to its end.
using ChosenCommand = std::function<ExitCode()>;

// The commands, a file each. Each adds itself, and is what is chosen where the command line names it.
void add_new_command(CLI::App& program, ChosenCommand& chosen);
void add_materials_command(CLI::App& program, ChosenCommand& chosen);
void add_mix_command(CLI::App& program, ChosenCommand& chosen);
void add_recipe_command(CLI::App& program, ChosenCommand& chosen);
void add_pile_command(CLI::App& program, ChosenCommand& chosen);
void add_forecast_command(CLI::App& program, ChosenCommand& chosen);
void add_readings_command(CLI::App& program, ChosenCommand& chosen);
void add_maturity_command(CLI::App& program, ChosenCommand& chosen);
void add_topdress_command(CLI::App& program, ChosenCommand& chosen);
void add_season_command(CLI::App& program, ChosenCommand& chosen);
void add_load_command(CLI::App& program, ChosenCommand& chosen);
void add_plan_command(CLI::App& program, ChosenCommand& chosen);
void add_exercise_command(CLI::App& program, ChosenCommand& chosen);
void add_workshop_command(CLI::App& program, ChosenCommand& chosen);
/// All of them, and what the program itself takes.
void add_everything(CLI::App& program, ChosenCommand& chosen);

/// "heapwright 1.2.3", and below it what a report of a fault should tell of the build.
std::string version_text();

}  // namespace heapwright::cli
