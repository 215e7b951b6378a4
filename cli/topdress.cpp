#include <fmt/format.h>

#include <algorithm>
#include <memory>

#include "command.hpp"
#include "heapwright/guide/plain.hpp"
#include "heapwright/guide/things.hpp"
#include "heapwright/input/printable.hpp"
#include "heapwright/lawn/order_sheet.hpp"
#include "heapwright/lawn/topdressing.hpp"
#include "heapwright/lawn/working.hpp"
#include "heapwright/page/own_compost.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/report/jobs_csv.hpp"
#include "heapwright/report/json.hpp"
#include "heapwright/units/decimal.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright::cli {
namespace {

struct TopdressOptions {
  CommonOptions common;
  std::string file;
  std::string area;
  std::string depth;
  std::string surface;
  std::string have;
  std::string budget;
  bool csv = false;
  std::string order_sheet;
  WorkingOption working;
};

/// "about 5000 sq ft", "5k sq ft"; the middle of "4000-5000 sq ft".
Area area_said(std::string_view text) {
  const std::string plain = plain_answer(text);
  for (const std::string_view sign : {" + ", " plus ", " minus "}) {
    if (plain.find(sign) != std::string::npos)
      throw TextError(in_quotes(plain) + " is more than one area", "work it out, and write one: \"5000 ft2\"");
  }
  const std::vector<std::string> sides = sides_in(plain);
  if (sides.size() == 2 && is_bare_number(sides[0]) && is_bare_number(sides[1]))
    throw TextError(in_quotes(plain) + " has no unit", "write the unit too: \"60 ft by 40 ft\"");
  return read_area(middle_of(plain));
}

/// "1/4 inch", "quarter inch"; of "1/4" inches are meant, for a fraction is of nothing else.
Length depth_said(std::string_view text) {
  const std::string plain = plain_answer(text);
  if (plain.find(" to ") != std::string::npos) throw TextError(in_quotes(plain) + " is more than one depth", "write one: \"1/4 in\"");
  const bool is_fraction = is_bare_number(plain) && plain.find('/') != std::string::npos;
  if (is_bare_number(plain) && !is_fraction) throw TextError(in_quotes(plain) + " has no unit", "write the unit too: \"1/4 in\"");
  return read_length(is_fraction ? plain + " in" : plain);
}

void apply(const TopdressOptions& options, Yard& yard) {
  if (!options.area.empty()) yard.lawn = Lawn{{Zone{"lawn", read_option("--area", options.area, area_said), std::nullopt}}};
  if (!options.depth.empty()) {
    yard.topdressing.depth = read_option("--depth", options.depth, depth_said);
    if (!is_positive(*yard.topdressing.depth)) throw TextError("--depth: a topdressing has a depth", "write \"1/4 in\"");
    if (yard.lawn) {
      for (Zone& zone : yard.lawn->zones) zone.depth.reset();
    }
  }
  if (!options.surface.empty()) yard.topdressing.surface = options.surface == "new" ? Surface::bare : Surface::lawn;
}

/// @throws TextError for what comes in any size: a scoop of the yard that sells it is no scoop for feed
void check_size_is_known(const std::string& plain, const Materials& materials) {
  const bool is_scoop = plain.find("scoop") != std::string::npos;
  const bool is_load = plain.find("load") != std::string::npos || plain.find("truck") != std::string::npos;
  if (is_scoop || (is_load && !is_amount(plain, *materials.containers)))
    throw TextError(in_quotes(plain) + ": scoops and loads come in many sizes",
                    "ask how many cubic yards it holds, and write them: \"1/2 yd3\"");
}

Volume volume_on_hand(const TopdressOptions& options, const Materials& materials) {
  return read_option("--have", options.have, [&](std::string_view text) {
    std::string plain = sized_bags(plain_answer(text));
    if (is_amount("1 " + plain, *materials.containers)) plain.insert(0, "1 ");  // "pickup load"
    check_size_is_known(plain, materials);
    if (is_quantity(plain, Dimension::mass))
      throw TextError(in_quotes(plain) + " is a weight",
                      "write a volume: \"10 yd3\"; of bags what one holds, which stands on it: \"20 bags of 1 ft3\"");
    const Volume volume = read_compost_volume(middle_of(plain), materials);
    if (!is_positive(volume)) throw TextError("\"" + std::string(text) + "\" is no compost", "write a volume above zero: \"10 yd3\"");
    return volume;
  });
}

/// Where the area is no lawn that was measured.
void leave_out_area(Answer<Topdressing>& answer) {
  std::erase_if(answer.assumptions, [](const Assumption& one) { return one.what == area_of_the_lawn; });
}

/// How far a volume goes: the topdressing of just the area that it covers.
Answer<Topdressing> coverage(const Yard& yard, Volume volume, Date today) {
  check_depth(depth_of(yard.topdressing), yard.topdressing.surface);
  const Lawn covered{{Zone{"lawn", area_covered(volume, yard.topdressing), std::nullopt}}};
  Answer<Topdressing> answer = topdress(covered, yard.topdressing, yard.tables.materials, today);
  if (yard.lawn) answer->advice = spreading_advice(*yard.lawn, yard.topdressing, today, *yard.tables.materials.nutrients);
  judge_compost(answer.result, *yard.tables.criteria);
  leave_out_area(answer);
  return answer;
}

/// "600", "$1,200"
Cost money_said(std::string_view text) {
  std::string digits(text);
  std::erase_if(digits, [](char letter) { return letter == '$' || letter == ',' || letter == ' '; });
  const std::optional<double> money = decimal_of(digits);
  if (!money || !(*money > 0.0)) throw TextError("\"" + std::string(text) + "\" is no sum of money", "write a plain number: 600");
  return *money * unit::money;
}

/// Nothing where nobody asked. @throws TextError where there are no prices
std::optional<Cost> budget_of(const TopdressOptions& options, const Yard& yard) {
  if (options.budget.empty()) return std::nullopt;
  if (yard.topdressing.offers.empty())
    throw TextError("--budget: no prices are known", "write the offers in a yard file, a [[topdressing.offer]] each, and name the file");
  return read_option("--budget", options.budget, money_said);
}

/// Read as the order is: of the file's own compost, where its weight limits a load.
Bought bought(const TopdressOptions& options, Cost budget, const Yard& yard) {
  const TopdressingPlan& plan = yard.topdressing;
  const Topdressing of_some = topdress(Lawn{{Zone{"lawn", read_area("1000 ft2"), std::nullopt}}}, plan, yard.tables.materials).result;
  OrderQuestion question = order_question(of_some);
  const Date day = options.common.today();
  const bool some_valid =
      std::any_of(question.offers.begin(), question.offers.end(), [&](const Offer& offer) { return offer.is_valid_on(day); });
  if (!some_valid) throw TextError("--budget: every offer is out of date", "ask for new ones");
  std::optional<Bought> found = bought_for(budget, std::move(question), plan.fixed_costs, day);
  if (!found) throw TextError("--budget: " + options.budget + " buys no compost of these offers", "give more");
  return std::move(*found);
}

/// A page with what the yard's own compost lacks for a lawn, where it was tested.
Page with_own_compost(Page page, const SpreadingAdvice& advice, const Yard& yard, Date today) {
  const Observations& seen = yard.observations;
  if (!seen.tests.empty() || !seen.checks.empty() || !seen.report_lines.empty())
    say_own_compost(page, advice, maturity_of(yard, today).result, *yard.tables.criteria);
  return page;
}

template <class PageOf>
ExitCode print_coverage(const TopdressOptions& options, const Yard& yard, Volume volume, PageOf&& page_of) {
  const Show show = options.common.show(yard.units);
  Answer<Topdressing> covered = coverage(yard, volume, options.common.today());
  if (!options.budget.empty()) mind_bought_compost(covered, yard.tables.materials);
  if (options.working.asked) covered.working = working_of_coverage(covered.result, options.working.units(options.common, show));
  options.common.print_answer([&] { return json_of_topdressing(covered, yard.tables.materials); },
                              [&] { return with_own_compost(page_of(covered), covered->advice, yard, options.common.today()); }, show);
  return done;
}

/// All sheets of a file, to be printed on both sides of their paper.
void write_sheets(const TopdressOptions& options, const std::vector<OrderSheet>& sheets, const Yard& yard, const Show& show) {
  const std::string title = yard.title.empty() ? "Compost order" : yard.title;
  write_whole("--order-sheet: ", options.order_sheet, printable(html_of_sheets(title, order_sheet_pages(sheets, yard.tables), show)),
              options.common.force);
}

ExitCode run_jobs(const TopdressOptions& options, const Yard& yard, const Show& show) {
  const Date today = options.common.today();
  const Materials& materials = yard.tables.materials;
  const std::optional<Cost> budget = budget_of(options, yard);
  DressedJobs jobs = dress_jobs(*yard.lawn, yard.jobs, yard.topdressing, today, yard.units == ShownUnits::si, materials);
  for (DressedDrop& drop : jobs.drops) judge_compost(drop.topdressing, *yard.tables.criteria);
  if (!options.order_sheet.empty())
    write_sheets(options, order_sheets(jobs, yard.jobs, yard.site, materials, *yard.tables.sheet_lines), yard, show);
  if (options.csv) {
    options.common.print(csv_of_jobs(jobs));
    return done;
  }
  Answer<Topdressing> all = topdress(*yard.lawn, yard.topdressing, materials, today);
  judge_compost(all.result, *yard.tables.criteria);
  mind_bought_compost(all, materials);
  if (options.working.asked) all.working = working_of_topdressing(all.result, options.working.units(options.common, show));
  const auto page = [&] {
    Page of_jobs = with_own_compost(jobs_page(all, jobs, materials), all->advice, yard, today);
    return budget ? with_budget(std::move(of_jobs), all->advice, *budget, jobs.cost) : of_jobs;
  };
  options.common.print_answer([&] { return json_of_jobs(all, jobs, materials); }, page, show);
  return budget && jobs.cost > *budget ? no_answer : done;
}

ExitCode run_budget(const TopdressOptions& options, Cost budget, const Yard& yard) {
  const Bought found = bought(options, budget, yard);
  const Lawn lawn = yard.lawn.value_or(Lawn());
  return print_coverage(options, yard, found.order.volume,
                        [&](const auto& covered) { return budget_page(covered, found, lawn, yard.tables.materials); });
}

ExitCode run_lawn(const TopdressOptions& options, const Yard& yard, const Show& show) {
  const Date today = options.common.today();
  const Materials& materials = yard.tables.materials;
  Answer<Topdressing> topdressing = topdress(yard.lawn.value_or(Lawn()), yard.topdressing, materials, today);
  judge_compost(topdressing.result, *yard.tables.criteria);
  mind_bought_compost(topdressing, materials);
  order_for(topdressing.result, today, yard.units == ShownUnits::si, materials);
  const std::optional<Cost> budget = budget_of(options, yard);
  const Ordering& ordering = *topdressing->ordering;
  if (budget && !(ordering.best && ordering.cost <= *budget)) return run_budget(options, *budget, yard);
  if (!options.order_sheet.empty())
    write_sheets(options, {order_sheet(yard.title, yard.site.value_or(Site()), topdressing.result, materials, *yard.tables.sheet_lines)},
                 yard, show);
  if (options.csv) {
    options.common.print(csv_of_order(ordering));
    return ordering.best ? done : no_answer;
  }
  if (options.working.asked) topdressing.working = working_of_topdressing(topdressing.result, options.working.units(options.common, show));
  const auto page = [&] {
    Page of_lawn = with_own_compost(topdressing_page(topdressing, materials), topdressing->advice, yard, today);
    return budget ? with_budget(std::move(of_lawn), topdressing->advice, *budget, ordering.cost) : of_lawn;
  };
  options.common.print_answer([&] { return json_of_topdressing(topdressing, materials); }, page, show);
  return done;
}

/// A file may leave the lawn for later.
ExitCode run_unmeasured(const TopdressOptions& options, const Yard& yard, const Show& show) {
  if (!options.order_sheet.empty())
    throw TextError("--order-sheet: no lawn is measured in " + options.file, "write a [[lawn.zone]] with its size");
  const Date today = options.common.today();
  const Lawn some{{Zone{"each 1000 sq ft", read_area("1000 ft2"), std::nullopt}}};
  Answer<Topdressing> topdressing = topdress(some, yard.topdressing, yard.tables.materials, today);
  judge_compost(topdressing.result, *yard.tables.criteria);
  mind_bought_compost(topdressing, yard.tables.materials);
  leave_out_area(topdressing);
  if (options.working.asked) topdressing.working = working_of_topdressing(topdressing.result, options.working.units(options.common, show));
  const auto page = [&] {
    return with_own_compost(unmeasured_lawn_page(topdressing, options.file, yard.tables.materials), topdressing->advice, yard, today);
  };
  options.common.print_answer([&] { return json_of_topdressing(topdressing, yard.tables.materials); }, page, show);
  return no_answer;
}

/// @throws TextError where there is no order of priced items to list
void check_has_order(const TopdressOptions& options, const Yard& yard) {
  if (yard.topdressing.offers.empty())
    throw TextError("--csv is a line a job, or a line an item of the order, and there are neither jobs nor offers",
                    "write [[job]] with its name and job = in each zone, or each price as a [[topdressing.offer]]");
  if (!yard.lawn) throw TextError("--csv: no lawn is measured in " + options.file, "write a [[lawn.zone]] with its size");
}

ExitCode run_topdress(const TopdressOptions& options) {
  options.common.check_csv_alone(options.csv);
  options.common.check_files(options.file, {}, {{"--order-sheet", options.order_sheet}});
  Yard yard =
      options.file.empty() ? options.common.yard_of_options() : options.common.yard(options.file, {{"--order-sheet", options.order_sheet}});
  apply(options, yard);
  const Show show = options.common.show(yard.units);
  if (!options.have.empty()) {
    const Volume volume = volume_on_hand(options, yard.tables.materials);
    const Lawn lawn = yard.lawn.value_or(Lawn());
    return print_coverage(options, yard, volume,
                          [&](const auto& covered) { return coverage_page(covered, volume, lawn, yard.tables.materials); });
  }
  if (!yard.jobs.empty() && options.area.empty()) return run_jobs(options, yard, show);
  if (options.csv) check_has_order(options, yard);
  if (yard.lawn) return run_lawn(options, yard, show);
  if (const auto budget = budget_of(options, yard)) return run_budget(options, *budget, yard);
  return options.file.empty() ? run_lawn(options, yard, show) : run_unmeasured(options, yard, show);
}

}  // namespace

void add_topdress_command(CLI::App& program, ChosenCommand& chosen) {
  auto options = std::make_shared<TopdressOptions>();
  CLI::App* command = program.add_subcommand("topdress", "the compost a lawn takes, what it brings, how far it goes");
  command->add_option("file", options->file, "a yard file")->type_name(takes::toml);
  command->add_option("--area", options->area, "area of the lawn, \"5000 ft2\"");
  command->add_option("--depth", options->depth, "depth of the compost, \"1/4 in\"");
  command->add_option("--surface", options->surface, "lawn, or new: bare ground, a new lawn, a bed")->check(CLI::IsMember({"lawn", "new"}));
  command->add_option("--have", options->have, "a volume of compost, \"10 yd3\": how far does it go?");
  command->add_option("--budget", options->budget, "your money, 600: is it enough, and how far does it go?")->excludes("--have");
  command->add_option("--order-sheet", options->order_sheet, "write a sheet to print: supplier in front, crew on the back")
      ->type_name(takes::file)
      ->excludes("--have")
      ->excludes("--budget");
  command->add_flag("--csv", options->csv, "a line a job, or an item of the order, as CSV")->excludes("--have")->excludes("--budget");
  options->working.add_to(*command);
  options->common.add_to(*command);
  command->footer(
      "Examples:\n  heapwright topdress --area \"5000 ft2\" --depth \"1/4 in\"\n  heapwright topdress --have \"2 yd3\" --depth \"1/4 in\"");
  command->callback([options, &chosen] { chosen = [options] { return run_topdress(*options); }; });
}

}  // namespace heapwright::cli
