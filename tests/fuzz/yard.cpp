/// Yard files: every answer about a yard, without a forecast and with one.

#include "heapwright/yard/yard.hpp"

#include <nlohmann/json.hpp>

#include "checks.hpp"
#include "heapwright/lawn/order_sheet.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/plan/loaded.hpp"
#include "heapwright/plan/plan.hpp"
#include "heapwright/report/icalendar.hpp"
#include "heapwright/report/jobs_csv.hpp"
#include "heapwright/report/json.hpp"
#include "heapwright/report/layout.hpp"
#include "heapwright/report/season_csv.hpp"
#include "targets.hpp"

namespace heapwright::fuzz {
namespace {

/// Puts out all of an answer in every form.
class Output {
 public:
  Output(std::string_view input, const Yard& yard) : input_(input), show_(yard.units) {}

  void put(const std::string& json, const Page& page) const {
    check_output(json, input_);
    put(page);
    if (in_every_form(input_)) require(nlohmann::json::accept(json), "JSON is JSON");
  }
  void put(const Page& page) const {
    check_output(text_of(page, show_, Screen{narrowest_screen, Depth::ground, true}), input_);
    if (in_every_form(input_)) check_output(html_of(page, show_), input_);
  }
  void put(const std::string& text) const { check_output(text, input_); }
  const Show& show() const { return show_; }

 private:
  std::string_view input_;
  Show show_;
};

void put_lawn(const Yard& yard, const Output& output) {
  const Materials& materials = yard.tables.materials;
  const bool metric = yard.units == ShownUnits::si;
  Answer<Topdressing> all = topdress(yard.lawn.value_or(Lawn()), yard.topdressing, materials, today);
  judge_compost(all.result, *yard.tables.criteria);
  mind_bought_compost(all, materials);
  if (yard.lawn && !yard.jobs.empty()) {
    const DressedJobs jobs = dress_jobs(*yard.lawn, yard.jobs, yard.topdressing, today, metric, materials);
    output.put(csv_of_jobs(jobs));
    output.put(json_of_jobs(all, jobs, materials), jobs_page(all, jobs, materials));
    for (const Page& side : order_sheet_pages(order_sheets(jobs, yard.jobs, yard.site, materials, *yard.tables.sheet_lines), yard.tables))
      output.put(side);
    return;
  }
  order_for(all.result, today, metric, materials);
  output.put(csv_of_order(*all->ordering));
  output.put(json_of_topdressing(all, materials), topdressing_page(all, materials));
  for (const Page& side : order_sheet_pages(
           {order_sheet(yard.title, yard.site.value_or(Site()), all.result, materials, *yard.tables.sheet_lines)}, yard.tables))
    output.put(side);
}

void put_recipe(const Yard& yard, const Output& output) {
  const Materials& materials = yard.tables.materials;
  const Answer<Recipe> recipe = first_recipe(not_loaded_yet(yard, today), today);
  output.put(json_of_recipe(recipe, materials), recipe_page(recipe, materials));
  const Answer<PileFit> fit = pile_of(yard, recipe_in_pile(yard, today), today);
  output.put(json_of_pile(fit, materials), pile_page(fit, materials));
  const Answer<MixOnHand> mix = mix_on_hand(yard, WaterMass(), today);
  output.put(json_of_mix(mix, materials), mix_page(mix, yard.targets, materials));
}

void put_plan(const Yard& yard, const Output& output) {
  const Materials& materials = yard.tables.materials;
  const Answer<Plan> plan = make_plan(yard, today);
  output.put(json_of_plan(plan, materials), plan_page(plan, materials));
  for (const Page& side : handout_pages(plan, yard.office, {}, materials)) output.put(side);
  output.put(shed_card_page(plan.result, materials));
  output.put(icalendar_of(yard.title, plan->calendar, today, materials, output.show()));
}

void put_rest(const Yard& yard, const Output& output) {
  const Materials& materials = yard.tables.materials;
  const Answer<YardSeason> season = season_of(yard, today);
  output.put(csv_of_season(season.result));
  output.put(json_of_season(season, materials), season_page(season, materials));
  const Answer<YardReadings> readings = readings_of(yard, std::nullopt, usual_gap, today);
  output.put(json_of_readings(readings, materials), readings_page(readings, materials));
  const Answer<YardCompost> compost = maturity_of(yard, today);
  output.put(json_of_maturity(compost, materials), maturity_page(compost, materials));
}

std::optional<Yard> yard_in(std::string_view text) {
  std::optional<Yard> yard;
  ends_well([&] { yard = as_of(read_yard_text(std::string(text), "yard.toml", tables()), today); });
  return yard;
}

}  // namespace

void answer_yard(std::string_view text) {
  std::optional<Yard> yard = yard_in(text);
  if (!yard) return;
  yard->climate.reset();
  const Output output(text, *yard);
  for (const auto put : {put_recipe, put_plan, put_rest, put_lawn}) ends_well([&] { put(*yard, output); });
  count_answered();
}

void forecast_yard(std::string_view text) {
  const std::optional<Yard> yard = yard_in(text);
  if (!yard || !yard->climate) return;
  const Output output(text, *yard);
  ends_well([&] {
    const Answer<YardForecast> forecast = forecast_of(*yard, recipe_in_pile(*yard, today), today);
    output.put(json_of_forecast(forecast, yard->tables.materials), forecast_page(forecast, yard->tables.materials));
    if (forecast->forecast) count_answered();
  });
}

}  // namespace heapwright::fuzz
