#include "heapwright/page/pile_now.hpp"
#include "heapwright/report/columns.hpp"
#include "heapwright/report/parts.hpp"
#include "heapwright/report/text.hpp"

namespace heapwright {
namespace {

/// What to do with the pile once it stands, and when it is ready.
std::string then_text(const Plan& plan, const std::string& squeeze, const Materials& materials, const Show& show) {
  const Forecast& forecast = *(*plan.forecast)->forecast;
  std::string text = "\nThen\n";
  text += plan.pile->turn_every ? item("turn it every " + show.days(*plan.pile->turn_every) + ", and " + squeeze)
                                : item("leave it; now and then " + squeeze);
  text += text_of_heating(plan.forecast->result, materials, show);
  if (forecast.status == ForecastStatus::never) text += item("left as it is: " + why_never_ready(forecast));
  text += text_of_pile_notes(forecast, show);
  if (forecast.status == ForecastStatus::never) return text;
  if (plan.maturity && (*plan.maturity)->known.rating.rating) return text;  // measured, not forecast
  if (forecast.heats.log_disagrees) return text;                            // and no date holds
  const bool corrected = (*plan.forecast)->rate && (*plan.forecast)->rate->tells;
  text += item("it is done when it is dark and crumbly, smells of earth, and no longer warms up after turning; by the forecast" +
               std::string(corrected ? ", as your readings correct it:" : ":"));
  return text + text_of_readiness(forecast);
}

/// The same without a forecast.
std::string care_text(const Plan& plan, const Materials& materials, const Show& show) {
  if (!plan.recipe->mix || !plan.pile) return {};
  const std::optional<Duration>& turn = plan.pile->turn_every;
  const std::string squeeze = "squeeze a handful: it should clump and not drip. Water it if it crumbles, add dry browns if it drips.";
  if (plan.forecast && (*plan.forecast)->forecast) return then_text(plan, squeeze, materials, show);
  const std::string done = "it is done when it is dark and crumbly, smells of earth, and no longer warms up after turning";
  if (!turn) return "\nThen\n" + item("leave it: unturned it gets done too, only later; now and then " + squeeze) + item(done);
  return "\nThen\n" + item("turn it every " + show.days(*turn) + ", and " + squeeze) + item(done);
}

std::string supply_text(const Plan& plan, const Show& show) {
  const SupplyBalance& supply = plan.supply;
  std::string text = "\nThe compost\n";
  if (supply.own_compost) {
    const CompostYield& own = *supply.own_compost;
    text += wrap("  Done and screened, the pile leaves about " + show.volume_band(own.likely, own.low, own.high) +
                     ": about half the dry matter rots away and the rest packs down.",
                 2);
  } else if (plan.forecast && (*plan.forecast)->forecast) {
    text += wrap("  As it is the pile is not ready within three years: count on none of it.", 2);
  }
  if (!supply.needed) return text + wrap("  No lawn is measured: add [[lawn.zone]] to see how far it goes.", 2);
  text += wrap("  The lawn takes " + show.volume(*supply.needed) + " a year.", 2);
  if (supply.to_buy->value() > 0.0) {
    text += wrap("  To buy, if you want to dress all of it: about " + show.volume(*supply.to_buy) + " of screened compost.", 2);
  } else {
    text += wrap("  That is enough: nothing to buy.", 2);
  }
  const std::optional<SoilTest>& soil = (*plan.topdressing)->plan.soil_test;
  if (soil && soil->phosphorus_is_high())
    text += wrap("  Your soil test calls phosphorus \"" + soil->phosphorus +
                     "\", and compost brings more: ask your extension office before you spread any.",
                 2);
  return text;
}

}  // namespace

std::string text_of_plan(const Answer<Plan>& whole, const Materials& materials, const Show& show) {
  const Plan& plan = whole.result;
  std::string text;
  if (!plan.title.empty()) text += plan.title + "\n" + std::string(width_of(plan.title), '=') + "\n\n";
  text += text_of_first_cautions(whole.cautions, materials);
  if (plan.readings && (*plan.readings)->smokes) return text + wrap(wait_until_it_is_out);
  const std::string now = plan.readings ? text_of_pile_now(plan.readings->result, materials, show) : std::string();
  if (!now.empty()) text += "The pile now\n" + now + "\n";
  if (plan.maturity) text += "The compost now\n" + text_of_compost_now(plan.maturity->result, show) + "\n";
  const bool stands = !now.empty() || plan.maturity;
  if (plan.has_supplies && stands) text += "As it was planned (it stands: put none of this in again)\n\n";
  if (plan.has_supplies)
    text += text_of_recipe_body(plan.recipe.result, materials, show, plan.fit ? text_of_room(plan.fit->result, show) : "");
  if (plan.has_supplies) text += care_text(plan, materials, show);
  if (plan.has_supplies || plan.topdressing) text += supply_text(plan, show);
  if (!plan.has_supplies && !plan.topdressing)
    text += wrap(
        "There is nothing yet to build a pile of, and no lawn. Say what there is: [[supply]] and [[lawn.zone]] in the yard file, or "
        "`heapwright new` to be asked.");
  if (plan.topdressing) text += "\nThe lawn\n" + text_of_topdressing_body(plan.topdressing->result, materials, show);
  return text + text_of_assumptions(whole.assumptions, whole.measure_first, show) + text_of_cautions(whole.cautions, materials);
}

}  // namespace heapwright
