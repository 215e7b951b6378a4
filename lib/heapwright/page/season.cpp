#include <algorithm>

#include "heapwright/materials/rows.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/page/parts.hpp"
#include "heapwright/page/season_parts.hpp"
#include "heapwright/time/date.hpp"

namespace heapwright {
namespace {

const WorkSteps gathering{"gather", "build"};

Numbered weeks_of(const YardSeason& season, const Materials& materials) {
  Numbered weeks;
  for (const WeekOfSeason& week : season.weeks) weeks.items.push_back(capital(week_words(week, materials)));
  return weeks;
}

bool has_left(const YardSeason& season, FeedstockClass sort) {
  return std::any_of(season.weeks.begin(), season.weeks.end(), [&](const WeekOfSeason& week) {
    return std::any_of(week.left.begin(), week.left.end(), [&](const RecipeAmount& amount) { return amount.feedstock_class == sort; });
  });
}

/// Dry leaves among what the year has no greens for.
DryMass dry_leaves_left(const YardSeason& season) {
  DryMass dry;
  for (const RecipeAmount& left : season.left_dry) {
    for (const Supply& supply : season.supplies) {
      if (supply.number == left.supply && supply.feedstock.has_tag("leaves")) dry += dry_mass(left.mass, supply.properties().moisture);
    }
  }
  return dry;
}

Words mulch_words(const YardSeason& season) {
  const DryMass leaves = dry_leaves_left(season);
  if (!season.mulch || !is_positive(leaves)) return "mow them into the lawn if they are leaves";
  if (*season.mulch >= leaves) return "mow the leaves into the lawn";
  return say("mow up to {} of the leaves into the lawn", Percent{static_cast<double>(*season.mulch / leaves)});
}

/// What to do with browns that the year has no greens for.
void say_left_dry(PageWriter& writer, const YardSeason& season, const Materials& materials) {
  if (season.left_dry.empty()) return;
  const Words left = counted(season.left_dry, materials);
  writer.paragraph(
      season.browns_only
          ? say("Without greens nothing of {} will heat: {}, pile the rest damp for leaf mold, a year or two; and keep some bags "
                "dry for the first clippings in April.",
                left, mulch_words(season))
          : say("More than the year can use: {}. Either {}, or pile them damp for leaf mold, a year or two.", left, mulch_words(season)));
}

/// Where browns run out before new ones come.
void say_scraps_only(PageWriter& writer, const YardSeason& season, const Materials& materials) {
  const char* when = season.weeks.empty() ? "No browns are left" : "After that no browns are left";
  const Words get = season.wanted_for_scraps ? say("get {} for the scraps", counted(*season.wanted_for_scraps, materials))
                                             : Words("get more for the scraps");
  const bool mown = std::any_of(season.supplies.begin(), season.supplies.end(),
                                [](const Supply& supply) { return supply.feedstock.feedstock_class == FeedstockClass::clippings; });
  writer.paragraph(say("{}: {}, or keep scraps out.{}", when, get, mown ? " Leave all clippings on the lawn." : ""));
}

void say_what_lacks(PageWriter& writer, const YardSeason& season, const Materials& materials) {
  if (season.scraps_only) say_scraps_only(writer, season, materials);
  if ((season.year.is_balanced() && !season.scraps_only) || season.greens_only) return;
  if (has_left(season, FeedstockClass::clippings))
    writer.paragraph("Leave the clippings that have no browns on the lawn: that is no waste.");
  if (has_left(season, FeedstockClass::must_go))
    writer.paragraph("Keep the scraps that have no browns out: they would stink. Some towns collect them.");
  std::vector<Words> ways;
  for (const RecipeAmount& way : season.would_take_all) ways.push_back(counted(way, materials));
  if (!ways.empty()) writer.paragraph(say("With another {} a year all of it could go in.", joined(ways, ", or ")));
}

/// What is kept dry at the end of each month, of what is kept at all.
std::vector<Bars> kept_by_month(const YardSeason& season, const Materials& materials) {
  std::vector<Bars> charts;
  for (std::size_t i = 0; i < season.supplies.size(); ++i) {
    const auto is_it = [&](const KeptDry& kept) { return kept.most.supply == season.supplies[i].number; };
    const auto kept = std::find_if(season.kept_dry.begin(), season.kept_dry.end(), is_it);
    if (kept == season.kept_dry.end()) continue;
    Bars bars{"Kept dry at the end of each month: " + season.supplies[i].name(), {}, {}, {}};
    const BulkDensity density = *season.question.supplies[i].ingredient.density;
    const Volume each = kept->most.containers ? Volume(kept->most.volume / kept->most.containers->count) : Volume();
    const Container* container = kept->most.containers ? row_with_id(*materials.containers, kept->most.containers->container) : nullptr;
    std::vector<Words> words;
    for (int later = 0; later < season.months; ++later) {
      const auto month = season.from.month() + std::chrono::months(later);
      const Volume volume = season.year.months[static_cast<unsigned>(month) - 1].supplies[i].kept / density;
      const Words says =
          container != nullptr && is_positive(each) ? Words(Count{static_cast<double>(volume / each), container->name}) : Words(volume);
      bars.bars.push_back({month_name(month), {volume}, says});
      words.push_back(say("{} {}", month_name(month), says));
    }
    bars.in_words = say("{}.", joined(words));
    charts.push_back(std::move(bars));
  }
  return charts;
}

Grid by_month(const YardSeason& season) {
  Grid grid;
  grid.head = {"month", "", "comes", "goes in", "left", "kept"};
  for (std::size_t m = 0; m < months_in_a_year; ++m) {
    Words name = month_name(std::chrono::month(static_cast<unsigned>(m) + 1));
    for (std::size_t i = 0; i < season.supplies.size(); ++i) {
      const MonthOfSupply& of = season.year.months[m].supplies[i];
      const auto volume = [&](Mass mass) {
        constexpr Volume least_worth_a_word = 0.5 * unit::liter;
        const Volume so_much = mass / *season.question.supplies[i].ingredient.density;
        return so_much > least_worth_a_word ? Words(so_much) : Words("-");
      };
      grid.rows.push_back({std::exchange(name, Words()), season.supplies[i].name(), volume(of.comes + of.bought), volume(of.used),
                           volume(of.left), volume(of.kept)});
    }
  }
  return grid;
}

}  // namespace

Page season_page(const Answer<YardSeason>& answer, const Materials& materials) {
  const YardSeason& season = answer.result;
  PageWriter writer("The year");
  urgent_cautions(writer, answer, materials);
  writer.section(Depth::act);
  if (season.supplies.empty()) {
    writer.paragraph("The file lists nothing that comes in: write [[supply]] with amount and when.");
    return std::move(writer).page();
  }
  if (season.leaves_alone) {
    say_leaves_alone(writer, *season.leaves_alone, season.today, materials);
    end_act(writer, answer, materials, gathering);
    return finished(std::move(writer), answer, materials);
  }
  for (const KeptDry& held : season.kept_dry) writer.paragraph(held_words(held, materials));
  if (!season.kept_dry.empty())
    writer.paragraph("Under a roof or a tarp, off the ground, away from walls: dry leaves burn, and mice nest in them.");
  if (!season.bought.empty()) writer.paragraph(say("Buy {} in the year.", counted(season.bought, materials)));
  say_left_dry(writer, season, materials);
  if (season.greens_only) {
    writer.paragraph(
        "Greens alone mat, and stink. Leave clippings on the lawn, which is no waste, and ask neighbors for leaves in the fall.");
  } else if (!season.weeks.empty()) {
    writer.section(Depth::act, "Each week").block(weeks_of(season, materials));
  }
  say_what_lacks(writer, season, materials);
  if (!season.after_pile && !season.weeks.empty())
    writer.paragraph("No pile is counted off: `heapwright plan` takes what the first one gets.");
  if (season.year.waits) writer.paragraph("Scraps may wait some weeks in a lidded pail, with a handful of leaves on top.");
  end_act(writer, answer, materials, gathering);
  writer.section(Depth::why, "Month by month");
  for (Bars& bars : kept_by_month(season, materials)) writer.block(std::move(bars));
  writer.block(by_month(season));
  writer.paragraph(season.after_pile
                       ? say("Each month's mix is within the windows. What the pile has by {} is not counted here; what it left of the "
                             "browns is there in its month, and lasts till new ones come.",
                             season.from)
                       : Words("Each month's mix is within the windows. A year closes on itself: what is kept in December is there in "
                               "January."));
  return finished(std::move(writer), answer, materials);
}

}  // namespace heapwright
