#include "heapwright/roster/workshop.hpp"

#include <algorithm>
#include <filesystem>
#include <iostream>
#include <memory>
#include <mutex>
#include <set>
#include <thread>
#include <tuple>

#include "command.hpp"
#include "heapwright/input/document.hpp"
#include "heapwright/input/file.hpp"
#include "heapwright/input/printable.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/report/answers_csv.hpp"
#include "heapwright/report/json_workshop.hpp"
#include "heapwright/report/marked.hpp"
#include "heapwright/roster/assumed.hpp"
#include "heapwright/roster/household_yard.hpp"
#include "heapwright/roster/in_parallel.hpp"
#include "own_folder.hpp"
#include "progress.hpp"

namespace heapwright::cli {
namespace {

struct WorkshopOptions {
  CommonOptions common;
  std::string roster;
  std::string into;
  std::string new_roster;
  bool names = false;
};

constexpr const char* made_of_a_roster = "a roster";  // the mark of files of all households

/// The text of a file that an option names; empty where it names none.
std::string text_behind(const std::string& path) { return path.empty() ? std::string() : contents_of(path, yard_file_kind()); }

/// @throws TextError for a file that is not ours to replace
void check_ours(const std::string& path, const std::function<bool(const std::string&)>& is_ours) {
  std::error_code trouble;
  if (!std::filesystem::exists(std::filesystem::symlink_status(path, trouble))) return;
  const std::optional<std::string> text = text_of_file(path);
  if (!text || !is_ours(*text))
    throw TextError("--into: " + path + " is there already, and no run of this command made it",
                    "name another folder, or add --force to overwrite it");
}

/// What its handout says was not told; an answer that was passed over changes nothing on it.
std::vector<std::string> assumed_words_of(const Household& household) {
  std::vector<std::string> texts;
  for (const AssumedAnswer& assumed : assumed_of(household)) {
    if (assumed.why != WhyAssumed::passed_over) texts.push_back(in_words(assumed));
  }
  return texts;
}

/// The handouts of a class, made one by one.
class HandoutMaker {
 public:
  HandoutMaker(const WorkshopOptions& options, Date today, const OwnFolder& folder, Roster roster, const Yard& base)
      : options_(options),
        today_(today),
        folder_(folder),
        base_(base),
        roster_(std::move(roster)),
        shares_(roster_.households.size()),
        others_{HEAPWRIGHT_VERSION,    print_date(today),
                options.common.units,  text_behind(options.common.base),
                mark_of_weather(base), text_behind(options.common.materials_file)} {}

  /// Before anything is made.
  void check_files() const {
    if (options_.common.force) return;
    const auto is_marked = [](const std::string& text) { return mark_of(text).has_value(); };
    for (const Household& household : roster_.households) check_ours(path_of(household), is_marked);
    check_ours(folder_.path_of(print_all_file), is_marked);
    check_ours(folder_.path_of(index_file), is_marked);
    check_ours(folder_.path_of(answers_file), [&](const std::string& text) { return are_answers_of_ours(text, *base_.tables.questions); });
  }

  Workshop make_all() {
    int done_so_far = 0;
    const int count = static_cast<int>(roster_.households.size());
    const ProgressLine progress("making the handouts", "");
    in_parallel(roster_.households.size(), std::thread::hardware_concurrency(), [&](std::size_t at) {
      make_one(at);
      const std::lock_guard<std::mutex> lock(mutex_);
      progress(++done_so_far, count);
    });
    Workshop workshop = without_failures();
    workshop.removed = remove_others(workshop.roster);
    return workshop;
  }

 private:
  std::string path_of(const Household& household) const { return folder_.path_of(handout_file_of(household)); }

  void make_one(std::size_t at) {
    const Household& household = roster_.households[at];
    const std::string title = title_of(household, options_.names);
    const std::string mark = mark_for(household, title, others_);
    std::optional<std::string> html;
    bool kept = false;
    const std::vector<BadRow> failures = bad_rows_in(household, [&] {
      Yard yard = yard_of(household, base_.tables, today_, options_.common.base, base_);
      yard.title = title;
      yard.units = options_.common.shown_units(yard.units);
      HouseholdShare share = share_of(yard, today_);
      const std::optional<std::string> there = options_.common.force ? std::nullopt : text_of_file(path_of(household));
      kept = there && mark_of(*there) == mark;
      if (!kept)
        html = marked(handout_of(make_plan(yard, today_), yard, Show(yard.units), {.not_told = assumed_words_of(household)}), mark);
      const std::lock_guard<std::mutex> lock(mutex_);
      shares_[at] = std::move(share);
      kept_ += kept ? 1 : 0;
    });
    if (!failures.empty()) {
      const std::lock_guard<std::mutex> lock(mutex_);
      failures_.insert(failures_.end(), failures.begin(), failures.end());
    } else if (html) {
      write_whole("--into: ", path_of(household), printable(*html), true, Readers::its_owner);
    }
  }

  /// Handouts of an earlier run that no household has now: the row went, or cannot be read any more.
  std::vector<std::string> remove_others(const Roster& roster) const {
    std::set<std::string> wanted;
    for (const Household& household : roster.households) wanted.insert(handout_file_of(household));
    std::vector<std::string> removed;
    for (const std::string& file : folder_.files()) {
      if (!is_name_of_a_handout(file) || wanted.count(file) != 0) continue;
      const std::optional<std::string> text = text_of_file(folder_.path_of(file));
      std::error_code trouble;
      if (text && mark_of(*text) && std::filesystem::remove(folder_.path_of(file), trouble)) removed.push_back(file);
    }
    return removed;
  }

  Workshop without_failures() {
    Workshop workshop;
    workshop.roster_file = options_.roster;
    workshop.folder = options_.into;
    workshop.today = today_;
    workshop.with_names = options_.names;
    workshop.kept = kept_;
    std::vector<HouseholdShare> shares;
    std::vector<Household> households;
    for (std::size_t at = 0; at < shares_.size(); ++at) {
      if (!shares_[at]) continue;
      shares.push_back(std::move(*shares_[at]));
      households.push_back(std::move(roster_.households[at]));
    }
    workshop.roster = std::move(roster_);
    workshop.roster.households = std::move(households);
    std::vector<BadRow>& bad = workshop.roster.bad_rows;
    bad.insert(bad.end(), failures_.begin(), failures_.end());
    const auto place = [](const BadRow& row) { return std::tie(row.problem.where.line, row.problem.where.column, row.problem.what); };
    std::sort(bad.begin(), bad.end(), [&](const BadRow& one, const BadRow& other) { return place(one) < place(other); });
    workshop.totals = totals_of(shares, base_, today_);
    return workshop;
  }

  const WorkshopOptions& options_;
  const Date today_;
  const OwnFolder& folder_;
  const Yard& base_;
  Roster roster_;
  std::vector<std::optional<HouseholdShare>> shares_;  ///< nothing where it has no handout
  const std::vector<std::string> others_;              ///< that every handout is made of
  std::mutex mutex_;                                   ///< of what is below, and of each share
  std::vector<BadRow> failures_;
  std::size_t kept_ = 0;
};

/// One handout after the other from its file, so that no more than one is in memory.
void write_print_all(const Workshop& workshop, const OwnFolder& folder, const Show& show) {
  const HtmlParts frame = parts_of_html(html_of_handout("Handouts of " + print_date(workshop.today), {}, show));
  WholeFile file("--into: ", folder.path_of(print_all_file), true, Readers::its_owner);
  file.add(marked(frame.head, made_of_a_roster));
  for (const Household& household : workshop.roster.households) {
    const std::string path = folder.path_of(handout_file_of(household));
    const std::optional<std::string> html = text_of_file(path);
    if (!html || !mark_of(*html)) throw TextError("--into: " + path + " was taken away meanwhile", "run this again");
    file.add(parts_of_html(*html).shown);
  }
  file.add(frame.foot);
  file.put_in_place();
}

void write_what_is_of_all(const Workshop& workshop, const OwnFolder& folder, const Tables& tables, const Show& show) {
  write_print_all(workshop, folder, show);
  write_whole("--into: ", folder.path_of(answers_file), printable(csv_of_answers(workshop.roster, *tables.questions, workshop.with_names)),
              true, Readers::its_owner);
  write_whole("--into: ", folder.path_of(index_file),
              printable(marked(html_of(workshop_index_page(workshop, tables.materials), show), made_of_a_roster)), true,
              Readers::its_owner);
}

void tell_bad_rows(const Workshop& workshop) {
  for (const BadRow& row : workshop.roster.bad_rows) std::cerr << printable(describe(problem_of_household(row, workshop.with_names)));
}

ExitCode write_new_roster(const WorkshopOptions& options) {
  if (!options.roster.empty() || !options.into.empty())
    throw TextError("--new writes a roster to fill in, and makes no handouts", "leave out --new, or the rest");
  if (options.common.json) throw TextError("--new writes a file, which is no JSON", "leave out --json");
  if (!options.common.html.empty()) throw TextError("--new writes a file, which is no page", "leave out --html");
  options.common.check_files({}, {}, {{"--new", options.new_roster}});
  const Tables tables = options.common.tables();
  write_whole("--new: ", options.new_roster, roster_template(*tables.questions), options.common.force);
  options.common.print("Written to " + options.new_roster +
                       ": the columns, and two invented households to write over.\nThen: heapwright workshop " + options.new_roster +
                       " --into handouts\n");
  return done;
}

ExitCode run_workshop(const WorkshopOptions& options) {
  if (!options.new_roster.empty()) return write_new_roster(options);
  if (options.roster.empty()) throw TextError("there is no roster", "name its CSV file, or write one to fill in with --new roster.csv");
  if (options.into.empty()) throw TextError("--into is missing: the handouts want a folder", "write --into handouts");
  const Yard base = options.common.yard_of_options();
  const Tables& tables = base.tables;
  const Date today = options.common.today();
  const ColumnNames names = options.common.base.empty() ? ColumnNames() : read_column_names(options.common.base, *tables.questions);
  Roster roster = read_roster(options.roster, names, tables, today);
  note_base_answers(roster, base);
  const OwnFolder folder("--into: ", options.into,
                         [&](const std::string& text) { return begins_marked(text) || are_answers_of_ours(text, *tables.questions); });
  options.common.check_files({}, {{"the roster", options.roster}});  // they may be in the folder
  HandoutMaker maker(options, today, folder, std::move(roster), base);
  maker.check_files();
  const Workshop workshop = maker.make_all();
  const Show show = options.common.show(base.units);
  write_what_is_of_all(workshop, folder, tables, show);
  tell_bad_rows(workshop);
  options.common.print_answer([&] { return json_of_workshop(workshop, tables.materials); },
                              [&] { return workshop_page(workshop, tables.materials); }, show);
  return workshop.roster.bad_rows.empty() ? done : no_answer;
}

}  // namespace

void add_workshop_command(CLI::App& program, ChosenCommand& chosen) {
  auto options = std::make_shared<WorkshopOptions>();
  CLI::App* command = program.add_subcommand("workshop", "a handout for each household of a class, and its totals");
  command->add_option("roster", options->roster, "a CSV file, a row for each household")->type_name(takes::csv);
  command->add_option("--into", options->into, "the folder for the handouts, made where there is none")->type_name(takes::folder);
  command->add_flag("--names", options->names, "names on the handouts and in the index, beside the numbers");
  command->add_option("--new", options->new_roster, "write a roster to fill in, with two example rows")->type_name(takes::csv);
  options->common.add_to(*command);
  command->footer(
      "Examples:\n  heapwright workshop --new roster.csv\n"
      "  heapwright workshop roster.csv --into handouts --today 2026-10-24");
  command->callback([options, &chosen] { chosen = [options] { return run_workshop(*options); }; });
}

}  // namespace heapwright::cli
