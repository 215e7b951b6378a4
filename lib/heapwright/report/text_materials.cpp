#include <algorithm>
#include <cmath>

#include "heapwright/report/columns.hpp"
#include "heapwright/report/text.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

template <class Quantity, class Words>
std::string reading_words(const Reading<Quantity>& reading, Words words) {
  std::string text = reading.typical ? words(*reading.typical) : "";
  if (reading.low && reading.high) {
    const std::string range = words(*reading.low) + " to " + words(*reading.high);
    text += text.empty() ? range : " (" + range + ")";
  } else if (reading.low) {
    text += (text.empty() ? "" : " (") + ("from " + words(*reading.low)) + (reading.typical ? ")" : "");
  } else if (reading.high) {
    text += (text.empty() ? "" : " (") + ("up to " + words(*reading.high)) + (reading.typical ? ")" : "");
  }
  return text;
}

template <class Quantity, class Words>
std::string readings_text(const std::string& heading, const Readings<Quantity>& readings, const Materials& materials, Words words,
                          bool is_used = true) {
  if (readings.empty()) return {};
  std::string text = heading + "\n";
  bool first = true;
  for (const Reading<Quantity>& reading : readings) {
    std::string line = "  " + std::string(is_used && first && reading.typical ? "* " : "  ") + padded(reading_words(reading, words), 22) +
                       "  " + source_words(materials, reading.source, reading.evidence);
    if (!reading.what.empty()) line += ": " + reading.what;
    if (!reading.note.empty()) line += "; " + reading.note;
    text += wrap(line, 6);
    first = false;
  }
  return text;
}

std::string percent_words(double fraction) { return print_number(100.0 * fraction, 3) + " %"; }

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

std::string names_text(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
  return text;
}

/// A checked number as the file has it: a percentage, a ratio, or a bulk density.
std::string checked_words(const std::string& key, double value) {
  if (key == "carbon_to_nitrogen") return print_number(value, 3) + ":1";
  if (key.starts_with("bulk_density")) return Show(ShownUnits::us).density(bulk_density(value));
  return print_number(100.0 * value, 3) + " %";
}

}  // namespace

std::string text_of_feedstocks(const Materials& materials, const Show& show) {
  const std::string per = show.density_unit();
  const auto weight = [&](std::optional<BulkDensity> density) { return density ? show.density_number(*density) : std::string("-"); };
  std::vector<std::vector<std::string>> rows{{"id", "C:N", "moist", per, "what it is"}};
  for (const Feedstock& feedstock : materials.feedstocks) {
    const auto ratio = feedstock.used_carbon_to_nitrogen();
    const auto moisture = used(feedstock.moisture);
    const auto density = feedstock.density();
    const std::vector<std::string> lacks = feedstock.lacks();
    rows.push_back({feedstock.id, ratio ? show_ratio(*ratio) : "-", moisture ? show_moisture(*moisture) : "-", weight(density),
                    feedstock.name + (lacks.empty() ? "" : " (incomplete)")});
  }
  std::string text = columns(rows) + "\nFinished composts, " + per + "\n";
  rows.clear();
  for (const Compost& compost : materials.composts) rows.push_back({compost.id, weight(used(compost.bulk_density)), compost.name});
  text += columns(rows) + "\nContainers\n";
  rows.clear();
  for (const Container& container : materials.containers) rows.push_back({container.id, show.volume(container.volume), container.name});
  text += columns(rows) + "\nWhat stays out of a pile\n";
  rows.clear();
  for (const KeepOut& row : materials.keep_out) rows.push_back({row.name, row.instead});
  return text + columns(rows) + "\n" + wrap("`heapwright materials ID` shows one in full, with whose figures they are.");
}

std::string text_of_feedstock(const Feedstock& feedstock, const Materials& materials, const Show& show) {
  std::string text = feedstock.id + ": " + feedstock.name + " (" + class_in_words(feedstock.feedstock_class) + ")\n";
  if (!feedstock.also.empty()) text += wrap("also called " + names_text(feedstock.also), 2);
  if (!feedstock.note.empty()) text += wrap(feedstock.note);
  const std::vector<std::string> lacks = feedstock.lacks();
  if (!lacks.empty()) text += wrap("It cannot be mixed: we found no published " + names_text(lacks) + ".");
  text += lacks.size() == 4 ? "\n" : "The figure with a star is the one used.\n\n";
  text += readings_text("moisture, wet basis", feedstock.moisture, materials, [](MoistureWetBasis m) { return percent_words(m.value()); });
  text += readings_text("carbon, of dry matter", feedstock.carbon, materials, [](CarbonDryBasis c) { return percent_words(c.value()); });
  text +=
      readings_text("C:N ratio", feedstock.carbon_to_nitrogen, materials, [](CarbonNitrogenRatio r) { return print_number(r.value(), 3); });
  const bool nitrogen_follows = feedstock.used_carbon() && used(feedstock.carbon_to_nitrogen);
  text += readings_text(
      nitrogen_follows
          ? "nitrogen, of dry matter, to compare (" + percent_words(feedstock.used_nitrogen()->value()) + " follows from carbon and C:N)"
          : "nitrogen, of dry matter",
      feedstock.nitrogen, materials, [](NitrogenDryBasis n) { return percent_words(n.value()); }, !nitrogen_follows);
  text += readings_text("organic matter, of dry matter", feedstock.volatile_solids, materials,
                        [](OrganicMatterDryBasis v) { return percent_words(v.value()); });
  text += readings_text("ash, of dry matter", feedstock.ash, materials, [](ShareOfDryMatter a) { return percent_words(a.value()); });
  for (const Packing& packing : feedstock.packings) {
    const std::string usual = packing.name == feedstock.usual_packing ? ", the usual packing" : "";
    text += readings_text("weight, " + packing.name + usual, packing.readings, materials, [&](BulkDensity d) { return show.density(d); });
  }
  return text;
}

std::string text_of_compost(const Compost& compost, const Materials& materials, const Show& show) {
  std::string text = compost.id + ": " + compost.name + " (finished compost)\n";
  if (!compost.also.empty()) text += wrap("also called " + names_text(compost.also), 2);
  if (!compost.note.empty()) text += wrap(compost.note);
  text += "The figure with a star is the one used.\n\n";
  text += readings_text("moisture, wet basis", compost.moisture, materials, [](MoistureWetBasis m) { return percent_words(m.value()); });
  text += readings_text("weight", compost.bulk_density, materials, [&](BulkDensity d) { return show.density(d); });
  text +=
      readings_text("C:N ratio", compost.carbon_to_nitrogen, materials, [](CarbonNitrogenRatio r) { return print_number(r.value(), 3); });
  text += readings_text("organic matter, of dry matter", compost.organic_matter, materials,
                        [](OrganicMatterDryBasis v) { return percent_words(v.value()); });
  text +=
      readings_text("nitrogen, of dry matter", compost.nitrogen, materials, [](NitrogenDryBasis n) { return percent_words(n.value()); });
  text += readings_text("phosphate (P2O5), of dry matter", compost.phosphate, materials,
                        [](PhosphateDryBasis p) { return percent_words(p.value()); });
  text +=
      readings_text("potash (K2O), of dry matter", compost.potash, materials, [](PotashDryBasis p) { return percent_words(p.value()); });
  return text;
}

std::string text_of_sources(const Materials& materials) {
  std::string text;
  for (const Source& source : materials.sources) {
    text += wrap(padded(source.id, 22) + "  " + source.title + (source.note.empty() ? "" : " [" + source.note + "]"), 24);
  }
  return text;
}

std::string text_of_check(const std::vector<CheckedFeedstock>& checked) {
  std::string text;
  for (const CheckedFeedstock& row : checked) {
    text += (text.empty() ? "" : "\n") + row.id + ", held against " + row.like + "\n";
    for (const CheckedValue& value : row.values) {
      const std::string range = value.low ? checked_words(value.key, *value.low) + " to " + checked_words(value.key, *value.high) : "";
      const std::string verdict = !value.inside   ? "no published figure to hold it against"
                                  : *value.inside ? "inside " + range
                                                  : "OUTSIDE " + range;
      text += wrap("  " + value.key + " " + checked_words(value.key, value.value) + ": " + verdict +
                       (value.whose.empty() ? "" : " (" + value.whose + ")"),
                   4);
      if (value.slip)
        text += wrap("    Likely slip: this is " + std::string(slip_words(*value.slip)) + ". It would be " +
                         checked_words(value.key, *value.meant) + ".",
                     4);
    }
    for (const std::string& why : row.impossible) text += wrap("  Cannot be: " + why + ".", 4);
    if (row.disagree) text += wrap("  carbon over nitrogen is not the C:N that is given: give two of the three, or three that agree", 4);
  }
  return text;
}

}  // namespace heapwright
