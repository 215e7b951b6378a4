#include <fmt/format.h>
#include <fmt/ranges.h>

#include "heapwright/materials/used_figures.hpp"
#include "heapwright/report/columns.hpp"
#include "heapwright/report/text.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

std::string percent_words(double fraction) { return fmt::format("{} %", print_number(100.0 * fraction, 3)); }

std::string class_in_words(FeedstockClass feedstock_class) {
  switch (feedstock_class) {
    case FeedstockClass::must_go: return "goes in first, it does not keep";
    case FeedstockClass::clippings: return "fresh, may stay on the lawn";
    case FeedstockClass::keeper: return "keeps if dry";
    case FeedstockClass::supplement: return "a nitrogen source, used sparingly";
    case FeedstockClass::mineral: return "mineral, used sparingly";
  }
  return {};
}

/// A checked number as the file has it: a percentage, a ratio, or a bulk density.
std::string checked_words(const std::string& key, double value) {
  if (key == "carbon_to_nitrogen") return fmt::format("{}:1", print_number(value, 3));
  if (key.starts_with("bulk_density")) return Show(ShownUnits::us).density(bulk_density(value));
  return percent_words(value);
}

// --- how a reading is printed ---

constexpr auto in_percent = [](auto share) { return percent_words(share.value()); };
constexpr auto as_ratio = [](CarbonNitrogenRatio ratio) { return print_number(ratio.value(), 3); };
auto as_weight(const Show& show) {
  return [&show](BulkDensity density) { return show.density(density); };
}

/// "45 % to 60 %", "from 45 %", "up to 60 %"; nothing where no end is given.
template <class Quantity, class Print>
std::string range_text(const PublishedValue<Quantity>& published, Print print) {
  if (published.low && published.high) return fmt::format("{} to {}", print(*published.low), print(*published.high));
  if (published.low) return fmt::format("from {}", print(*published.low));
  if (published.high) return fmt::format("up to {}", print(*published.high));
  return {};
}

template <class Quantity, class Print>
std::string value_text(const PublishedValue<Quantity>& published, Print print) {
  const std::string range = range_text(published, print);
  if (!published.typical) return range;
  const std::string typical = print(*published.typical);
  return range.empty() ? typical : fmt::format("{} ({})", typical, range);
}

enum class Standing { used, to_compare };

/// The first of those used has a star.
template <class Quantity, class Print>
std::string values_text(std::string_view heading, const PublishedValues<Quantity>& values, const Materials& materials, Print print,
                        Standing standing = Standing::used) {
  if (values.empty()) return {};
  std::string text = fmt::format("{}\n", heading);
  for (const PublishedValue<Quantity>& published : values) {
    const bool star = standing == Standing::used && &published == &values.front() && published.typical;
    std::string line =
        fmt::format("  {} {}  {}", star ? '*' : ' ', padded(value_text(published, print), 22), source_words(materials, published));
    if (!published.what.empty()) line += fmt::format(": {}", published.what);
    if (!published.note.empty()) line += fmt::format("; {}", published.note);
    text += wrap(line, 6);
  }
  return text;
}

std::string nitrogen_text(const Feedstock& feedstock, const Materials& materials) {
  const bool follows = feedstock.used_carbon() && used(feedstock.carbon_to_nitrogen);
  if (!follows) return values_text("nitrogen, of dry matter", feedstock.nitrogen, materials, in_percent);
  return values_text(fmt::format("nitrogen, of dry matter, to compare ({} follows from carbon and C:N)",
                                 percent_words(feedstock.used_nitrogen()->value())),
                     feedstock.nitrogen, materials, in_percent, Standing::to_compare);
}

std::string packings_text(const Feedstock& feedstock, const Materials& materials, const Show& show) {
  std::string text;
  for (const Packing& packing : feedstock.packings) {
    const std::string_view usual = packing.name == feedstock.usual_packing ? ", the usual packing" : "";
    text += values_text(fmt::format("weight, {}{}", packing.name, usual), packing.values, materials, as_weight(show));
  }
  return text;
}

/// What it is, what else it is called, and what is to be said of it.
template <class Material>
std::string head_text(const Material& material, std::string_view kind) {
  std::string text = fmt::format("{}: {} ({})\n", material.id, material.name, kind);
  if (!material.also.empty()) text += wrap(fmt::format("also called {}", fmt::join(material.also, ", ")), 2);
  if (!material.note.empty()) text += wrap(material.note);
  return text;
}

// --- the table of all materials ---

using Rows = std::vector<std::vector<std::string>>;

std::string weight_cell(std::optional<BulkDensity> density, const Show& show) { return density ? show.density_number(*density) : "-"; }

std::string feedstock_columns(const Materials& materials, const Show& show) {
  Rows rows{{"id", "C:N", "moist", show.density_unit(), "what it is"}};
  for (const Feedstock& feedstock : *materials.feedstocks) {
    const auto ratio = feedstock.used_carbon_to_nitrogen();
    const auto moisture = used(feedstock.moisture);
    rows.push_back({feedstock.id, ratio ? show_ratio(*ratio) : "-", moisture ? show_moisture(*moisture) : "-",
                    weight_cell(feedstock.density(), show),
                    feedstock.lacks().empty() ? feedstock.name : fmt::format("{} (incomplete)", feedstock.name)});
  }
  return columns(rows);
}

std::string compost_columns(const Materials& materials, const Show& show) {
  Rows rows;
  for (const Compost& compost : *materials.composts)
    rows.push_back({compost.id, weight_cell(used(compost.bulk_density), show), compost.name});
  return columns(rows);
}

std::string container_columns(const Materials& materials, const Show& show) {
  Rows rows;
  for (const Container& container : *materials.containers) rows.push_back({container.id, show.volume(container.volume), container.name});
  return columns(rows);
}

std::string keep_out_columns(const Materials& materials) {
  Rows rows;
  for (const KeepOut& row : *materials.keep_out) rows.push_back({row.name, row.instead});
  return columns(rows);
}

// --- how the figures are known ---

std::string share_words(std::size_t count, const UsedFigures& counted) {
  return fmt::format("{:.0f} %", 100.0 * static_cast<double>(count) / static_cast<double>(counted.all()));
}

std::string used_figures_text(const UsedFigures& counted) {
  if (counted.all() == 0) return {};
  const std::string own = counted.own == 0 ? "" : fmt::format(" {} are your own.", share_words(counted.own, counted));
  return wrap(
      fmt::format("Of {} figures used, {} were read at the source and {} in a quotation of it; {} are common handbook figures, not "
                  "re-checked, and {} are judged by us.{} Of {} that were read, the range is remembered or judged.",
                  counted.all(), share_words(counted.seen, counted), share_words(counted.secondary, counted),
                  share_words(counted.memory, counted), share_words(counted.judged, counted), own, counted.ranges_not_read));
}

// --- checked feedstocks ---

std::string verdict_text(const CheckedValue& value) {
  if (!value.inside) return "no published figure to hold it against";
  const std::string range =
      value.low ? fmt::format("{} to {}", checked_words(value.key, *value.low), checked_words(value.key, *value.high)) : "";
  return fmt::format("{} {}", *value.inside ? "inside" : "OUTSIDE", range);
}

std::string checked_text(const CheckedValue& value) {
  const std::string whose = value.whose.empty() ? "" : fmt::format(" ({})", value.whose);
  std::string text = wrap(fmt::format("  {} {}: {}{}", value.key, checked_words(value.key, value.value), verdict_text(value), whose), 4);
  if (value.slip)
    text += wrap(
        fmt::format("    Likely slip: this is {}. It would be {}.", slip_words(*value.slip), checked_words(value.key, *value.meant)), 4);
  return text;
}

std::string checked_text(const CheckedFeedstock& row) {
  std::string text = fmt::format("{}, held against {}\n", row.id, row.like);
  for (const CheckedValue& value : row.values) text += checked_text(value);
  for (const std::string& why : row.impossible) text += wrap(fmt::format("  Cannot be: {}.", why), 4);
  if (row.disagree) text += wrap("  carbon over nitrogen is not the C:N that is given: give two of the three, or three that agree", 4);
  return text;
}

}  // namespace

std::string text_of_feedstocks(const Materials& materials, const Show& show) {
  return fmt::format("{}\nFinished composts, {}\n{}\nContainers\n{}\nWhat stays out of a pile\n{}\n{}", feedstock_columns(materials, show),
                     show.density_unit(), compost_columns(materials, show), container_columns(materials, show), keep_out_columns(materials),
                     wrap("`heapwright materials ID` shows one in full, with whose figures they are."));
}

std::string text_of_feedstock(const Feedstock& feedstock, const Materials& materials, const Show& show) {
  std::string text = head_text(feedstock, class_in_words(feedstock.feedstock_class));
  const std::vector<std::string> lacks = feedstock.lacks();
  if (!lacks.empty()) text += wrap(fmt::format("It cannot be mixed: we found no published {}.", fmt::join(lacks, ", ")));
  text += lacks.size() == 4 ? "\n" : "The figure with a star is the one used.\n\n";
  text += values_text("moisture, wet basis", feedstock.moisture, materials, in_percent);
  text += values_text("carbon, of dry matter", feedstock.carbon, materials, in_percent);
  text += values_text("C:N ratio", feedstock.carbon_to_nitrogen, materials, as_ratio);
  text += nitrogen_text(feedstock, materials);
  text += values_text("organic matter, of dry matter", feedstock.volatile_solids, materials, in_percent);
  text += values_text("ash, of dry matter, to compare", feedstock.ash, materials, in_percent, Standing::to_compare);
  text += packings_text(feedstock, materials, show);
  return text;
}

std::string text_of_compost(const Compost& compost, const Materials& materials, const Show& show) {
  std::string text = head_text(compost, "finished compost");
  text += "The figure with a star is the one used.\n\n";
  text += values_text("moisture, wet basis", compost.moisture, materials, in_percent);
  text += values_text("weight", compost.bulk_density, materials, as_weight(show));
  text += values_text("C:N ratio", compost.carbon_to_nitrogen, materials, as_ratio);
  text += values_text("organic matter, of dry matter", compost.organic_matter, materials, in_percent);
  text += values_text("nitrogen, of dry matter", compost.nitrogen, materials, in_percent);
  text += values_text("phosphate (P2O5), of dry matter", compost.phosphate, materials, in_percent);
  text += values_text("potash (K2O), of dry matter", compost.potash, materials, in_percent);
  return text;
}

std::string text_of_sources(const Materials& materials) {
  std::string text = used_figures_text(used_figures(materials)) + "\n";
  for (const Source& source : *materials.sources) {
    const std::string note = source.note.empty() ? "" : fmt::format(" [{}]", source.note);
    text += wrap(fmt::format("{}  {}{}", padded(source.id, 22), source.title, note), 24);
  }
  return text;
}

std::string text_of_check(const std::vector<CheckedFeedstock>& checked) {
  std::vector<std::string> texts;
  for (const CheckedFeedstock& row : checked) texts.push_back(checked_text(row));
  return fmt::format("{}", fmt::join(texts, "\n"));
}

}  // namespace heapwright
