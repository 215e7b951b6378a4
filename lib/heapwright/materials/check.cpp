#include "heapwright/materials/check.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "heapwright/input/document.hpp"
#include "heapwright/materials/read_feedstock.hpp"
#include "heapwright/materials/read_published_values.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

constexpr double double_error = 1e-9;

/// A range of a property and whose it is.
struct Range {
  std::optional<double> low;
  std::optional<double> high;
  std::string whose_low;
  std::string whose_high;

  /// Whether some value that rounds to this one, typed so finely, is in the range.
  bool holds(double value, double typed_to) const {
    return low && value * (1.0 + typed_to) >= *low * (1.0 - double_error) && value * (1.0 - typed_to) <= *high * (1.0 + double_error);
  }
  /// Within half as far again as the range goes: where a corrected value may lie.
  bool nearly_holds(double value) const { return low && value >= *low / 1.5 && value <= *high * 1.5; }
  void take(double value, const std::string& whose) {
    if (!low || value < *low) {
      low = value;
      whose_low = whose;
    }
    if (!high || value > *high) {
      high = value;
      whose_high = whose;
    }
  }
};

template <class Quantity>
void take_readings(Range& range, const PublishedValues<Quantity>& values, const Materials& materials) {
  for (const PublishedValue<Quantity>& published : values) {
    if (published.outlier) continue;
    const std::string whose = source_words(materials, published.source, published.evidence);
    const std::string whose_range = published.range_evidence ? source_words(materials, {}, *published.range_evidence) : whose;
    if (published.typical) range.take(published.typical->value(), whose);
    for (const std::optional<Quantity>& value : {published.low, published.high}) {
      if (value) range.take(value->value(), whose_range);
    }
  }
}

template <class Quantity>
Range range_of(const PublishedValues<Quantity>& values, const Materials& materials) {
  Range range;
  take_readings(range, values, materials);
  return range;
}

/// Takes in all that one range over another can be.
void take_quotients(Range& range, const Range& over, const Range& under, const std::string& whose) {
  if (!over.low || !under.low || !(*under.low > 0.0)) return;
  range.take(*over.low / *under.high, whose);
  range.take(*over.high / *under.low, whose);
}

/// Nitrogen as published, and as it follows from carbon and C:N.
Range nitrogen_range(const Feedstock& like, const Materials& materials) {
  Range range = range_of(like.nitrogen, materials);
  take_quotients(range, range_of(like.carbon, materials), range_of(like.carbon_to_nitrogen, materials), "carbon over C:N");
  return range;
}

/// C:N as published, else as it follows from carbon and nitrogen.
Range ratio_range(const Feedstock& like, const Materials& materials) {
  Range range = range_of(like.carbon_to_nitrogen, materials);
  if (!range.low) take_quotients(range, range_of(like.carbon, materials), range_of(like.nitrogen, materials), "carbon over nitrogen");
  return range;
}

/// Organic matter as published, else from 1.8 times the least carbon to all.
Range organic_range(const Feedstock& like, const Materials& materials) {
  Range range = range_of(like.volatile_solids, materials);
  const Range carbon = range_of(like.carbon, materials);
  if (range.low || !carbon.low) return range;
  range.take(std::min(1.0, 1.8 * *carbon.low), "1.8 times its carbon");
  range.take(1.0, "1.8 times its carbon");
  return range;
}

Range ash_range(const Feedstock& like, const Materials& materials) {
  Range range = range_of(like.ash, materials);
  const Range organic = organic_range(like, materials);
  if (range.low || !organic.low) return range;
  range.take(1.0 - *organic.high, organic.whose_high);
  range.take(1.0 - *organic.low, organic.whose_low);
  return range;
}

/// A way to have gone wrong, and back.
struct WayBack {
  Slip slip;
  std::function<double(double)> meant;
};

WayBack times_hundred() {
  return {Slip::fraction_for_percentage, [](double value) { return 100.0 * value; }};
}

/// @param typed the figure with its unit: what a slip of units may have been depends on it
std::vector<WayBack> ways_back(const std::string& key, const std::string& typed, std::optional<double> moisture) {
  std::vector<WayBack> ways;
  const bool of_dry_matter = key == "carbon_dry_basis" || key == "nitrogen_dry_basis" || key == "volatile_solids_dry_basis";
  if (key == "carbon_to_nitrogen") return {{Slip::upside_down, [](double value) { return 1.0 / value; }}};
  if (key.starts_with("bulk_density")) {
    constexpr double pounds_per_yard = unit::pound / unit::cubic_yard / (unit::kg / unit::m3);
    if (typed.find("yd") != std::string::npos || typed.find("yard") != std::string::npos)
      return {{Slip::per_cubic_foot, [](double value) { return 27.0 * value; }},
              {Slip::metric_for_us, [](double value) { return value / pounds_per_yard; }}};
    if (typed.find("kg") != std::string::npos) return {{Slip::us_for_metric, [](double value) { return value * pounds_per_yard; }}};
    return {};
  }
  ways.push_back(times_hundred());
  if (of_dry_matter && moisture && *moisture < 1.0)
    ways.push_back({Slip::wet_basis, [dry = 1.0 - *moisture](double value) { return value / dry; }});
  if (key == "moisture_wet_basis") {
    ways.push_back({Slip::dry_matter_for_moisture, [](double value) { return 1.0 - value; }});
    ways.push_back({Slip::dry_basis_moisture, [](double value) { return value / (1.0 + value); }});
  }
  if (key == "carbon_dry_basis") ways.push_back({Slip::organic_for_carbon, [](double value) { return value / 1.8; }});
  if (key == "nitrogen_dry_basis") ways.push_back({Slip::protein_for_nitrogen, [](double value) { return value / 6.25; }});
  if (key == "volatile_solids_dry_basis" || key == "ash_dry_basis")
    ways.push_back({Slip::ash_for_organic, [](double value) { return 1.0 - value; }});
  return ways;
}

bool figures_agree(double carbon, double nitrogen, double ratio, const TypedTo& typed) {
  return third_agrees(carbon_dry_basis(carbon), nitrogen_dry_basis(nitrogen), carbon_to_nitrogen(ratio), typed);
}

struct Held {
  CheckedValue value;
  Range range;
  std::string typed;      ///< as it was
  double typed_to = 0.0;  ///< how finely, relative
};

class Check {
 public:
  Check(const Feedstock& row, const Feedstock& like, const Materials& materials)
      : row_(row), like_(like), materials_(materials), checked_{row.id, like.id, {}, {}, false} {
    hold("moisture_wet_basis", row.moisture, range_of(like.moisture, materials));
    hold("carbon_dry_basis", row.carbon, range_of(like.carbon, materials));
    hold("nitrogen_dry_basis", row.nitrogen, nitrogen_range(like, materials));
    hold("carbon_to_nitrogen", row.carbon_to_nitrogen, ratio_range(like, materials));
    hold("volatile_solids_dry_basis", row.volatile_solids, organic_range(like, materials));
    hold("ash_dry_basis", row.ash, ash_range(like, materials));
    for (const Packing& packing : row.packings) hold("bulk_density." + packing.name, packing.values, density_range(packing.name, like));
    ratio_range_ = ratio_range(like, materials);
    moisture_ = meant_moisture();
  }

  CheckedFeedstock run() {
    explain_third();
    for (Held& held : held_) explain_alone(held);
    if (third_disagrees_ && !third_agrees_as_meant()) checked_.disagree = true;
    explain_ratio_of_two();
    tell_the_impossible();
    for (Held& held : held_) checked_.values.push_back(std::move(held.value));
    return std::move(checked_);
  }

 private:
  Range density_range(const std::string& packing, const Feedstock& like) const {
    if (const Packing* same = like.find_packing(packing)) return range_of(same->values, materials_);
    Range range;
    for (const Packing& other : like.packings) take_readings(range, other.values, materials_);
    return range;
  }

  template <class Quantity>
  void hold(const std::string& key, const PublishedValues<Quantity>& values, Range range) {
    if (!used(values)) return;
    CheckedValue value;
    value.key = key;
    value.value = used(values)->value();
    value.low = range.low;
    value.high = range.high;
    value.whose = range.whose_low == range.whose_high ? range.whose_low : range.whose_low + "; " + range.whose_high;
    if (range.low) value.inside = range.holds(value.value, values.front().rounding);
    held_.push_back({std::move(value), std::move(range), values.front().typed, values.front().rounding});
  }

  Held* find(const std::string& key) {
    const auto found = std::find_if(held_.begin(), held_.end(), [&](const Held& held) { return held.value.key == key; });
    return found == held_.end() ? nullptr : &*found;
  }

  /// The moisture, without its own slip: what a wet basis is worked out back with.
  std::optional<double> meant_moisture() {
    Held* moisture = find("moisture_wet_basis");
    if (moisture == nullptr) return std::nullopt;
    explain_alone(*moisture);
    return moisture->value.meant.value_or(moisture->value.value);
  }

  static void name(Held& held, const WayBack& way) {
    held.value.slip = way.slip;
    held.value.meant = way.meant(held.value.value);
  }

  /// Carbon over nitrogen must be C:N. Where it is not, the one slip that makes it so is named.
  void explain_third() {
    Held* carbon = find("carbon_dry_basis");
    Held* nitrogen = find("nitrogen_dry_basis");
    Held* ratio = find("carbon_to_nitrogen");
    if (carbon == nullptr || nitrogen == nullptr || ratio == nullptr) return;
    const TypedTo typed{carbon->typed_to, nitrogen->typed_to, ratio->typed_to};
    third_agrees_ = figures_agree(carbon->value.value, nitrogen->value.value, ratio->value.value, typed);
    if (third_agrees_) return;
    for (Held* held : {ratio, nitrogen, carbon}) {
      for (const WayBack& way : ways_back(held->value.key, held->typed, moisture_)) {
        const double meant = way.meant(held->value.value);
        const double c = held == carbon ? meant : carbon->value.value;
        const double n = held == nitrogen ? meant : nitrogen->value.value;
        const double r = held == ratio ? meant : ratio->value.value;
        TypedTo twice = typed;  // who worked out a rounded figure over rounded it again
        (held == carbon ? twice.carbon : held == nitrogen ? twice.nitrogen : twice.ratio) *= 2.0;
        if (!figures_agree(c, n, r, twice) || !held->range.nearly_holds(meant)) continue;
        name(*held, way);
        return;
      }
    }
    third_disagrees_ = true;
  }

  /// Whether carbon, nitrogen and C:N agree once their slips are taken back.
  bool third_agrees_as_meant() {
    const auto meant = [&](const char* key) {
      const CheckedValue& value = find(key)->value;
      return value.meant.value_or(value.value);
    };
    const TypedTo twice{2.0 * find("carbon_dry_basis")->typed_to, 2.0 * find("nitrogen_dry_basis")->typed_to,
                        2.0 * find("carbon_to_nitrogen")->typed_to};
    return figures_agree(meant("carbon_dry_basis"), meant("nitrogen_dry_basis"), meant("carbon_to_nitrogen"), twice);
  }

  /// A value outside its range that a slip explains.
  void explain_alone(Held& held) {
    if (held.value.slip || held.value.inside.value_or(true)) return;
    const bool vouched_for = third_agrees_ && (held.value.key == "nitrogen_dry_basis" || held.value.key == "carbon_dry_basis");
    for (const WayBack& way : ways_back(held.value.key, held.typed, moisture_)) {
      if (vouched_for && way.slip == Slip::wet_basis) continue;  // it would have spoilt the agreement
      if (!held.range.holds(way.meant(held.value.value), held.typed_to)) continue;
      name(held, way);
      return;
    }
  }

  /// Carbon and nitrogen without a C:N: a nitrogen of the whole wet mass makes the ratio too wide.
  void explain_ratio_of_two() {
    Held* carbon = find("carbon_dry_basis");
    Held* nitrogen = find("nitrogen_dry_basis");
    const bool two = carbon != nullptr && nitrogen != nullptr && find("carbon_to_nitrogen") == nullptr;
    if (!two || carbon->value.slip || nitrogen->value.slip || !moisture_ || !(*moisture_ < 1.0)) return;
    const double ratio = carbon->value.value / nitrogen->value.value;
    const double meant = nitrogen->value.value / (1.0 - *moisture_);
    const double typed_to = carbon->typed_to + nitrogen->typed_to;
    const bool explains = ratio_range_.holds(carbon->value.value / meant, typed_to) && nitrogen->range.holds(meant, nitrogen->typed_to);
    if (ratio_range_.holds(ratio, typed_to) || !explains) return;
    nitrogen->value.slip = Slip::wet_basis;
    nitrogen->value.meant = meant;
  }

  bool has_slip(const std::string& key) {
    const Held* held = find(key);
    return held != nullptr && held->value.slip.has_value();
  }

  /// What no slip explains and nature does not allow.
  void tell_the_impossible() {
    const bool explained = has_slip("nitrogen_dry_basis") || has_slip("carbon_dry_basis") || has_slip("carbon_to_nitrogen");
    const auto nitrogen = row_.used_nitrogen();
    const bool published = nitrogen && nitrogen_range(like_, materials_).holds(nitrogen->value(), 0.0);
    if (!explained && !published && !is_sparing(like_.feedstock_class)) {
      if (auto why = why_not_nitrogen(row_)) checked_.impossible.push_back(std::move(*why));
    }
    if (has_slip("moisture_wet_basis")) return;
    for (const Packing& packing : row_.packings) {
      if (has_slip("bulk_density." + packing.name)) continue;
      if (auto why = why_not_density(row_, packing)) checked_.impossible.push_back(std::move(*why));
    }
  }

  const Feedstock& row_;
  const Feedstock& like_;
  const Materials& materials_;
  CheckedFeedstock checked_;
  std::vector<Held> held_;
  Range ratio_range_;
  std::optional<double> moisture_;
  bool third_agrees_ = false;
  bool third_disagrees_ = false;  ///< and no single slip explains it
};

}  // namespace

std::string_view slip_word(Slip slip) {
  switch (slip) {
    case Slip::fraction_for_percentage: return "fraction-for-percentage";
    case Slip::wet_basis: return "wet-basis";
    case Slip::upside_down: return "upside-down";
    case Slip::dry_matter_for_moisture: return "dry-matter-for-moisture";
    case Slip::dry_basis_moisture: return "dry-basis-moisture";
    case Slip::organic_for_carbon: return "organic-for-carbon";
    case Slip::protein_for_nitrogen: return "protein-for-nitrogen";
    case Slip::ash_for_organic: return "ash-for-organic";
    case Slip::per_cubic_foot: return "per-cubic-foot";
    case Slip::metric_for_us: return "metric-for-us";
    case Slip::us_for_metric: return "us-for-metric";
  }
  return "";
}

std::string_view slip_words(Slip slip) {
  switch (slip) {
    case Slip::fraction_for_percentage: return "a fraction typed as a percentage";
    case Slip::wet_basis: return "a share of the whole wet mass, where one of dry matter is wanted";
    case Slip::upside_down: return "nitrogen to carbon: the ratio is upside down";
    case Slip::dry_matter_for_moisture: return "the share of dry matter, where the share of water is wanted";
    case Slip::dry_basis_moisture: return "water by dry matter, where water by the whole wet mass is wanted";
    case Slip::organic_for_carbon: return "organic matter, which is about 1.8 times its carbon";
    case Slip::protein_for_nitrogen: return "crude protein, which is 6.25 times its nitrogen";
    case Slip::ash_for_organic: return "ash and organic matter swapped";
    case Slip::per_cubic_foot: return "pounds to the cubic foot, written as to the cubic yard";
    case Slip::metric_for_us: return "kg/m3, written as lb/yd3";
    case Slip::us_for_metric: return "lb/yd3, written as kg/m3";
  }
  return "";
}

CheckedFeedstock check(const Feedstock& row, const Feedstock& like, const Materials& materials) {
  return Check(row, like, materials).run();
}

bool has_slip(const CheckedFeedstock& checked) {
  return checked.disagree || !checked.impossible.empty() ||
         std::any_of(checked.values.begin(), checked.values.end(), [](const CheckedValue& value) { return value.slip.has_value(); });
}

std::vector<CheckedFeedstock> check_materials_file(const Materials& materials, const std::string& path) {
  Problems problems;
  Document document = Document::from_file(path, problems);
  Table root = document.root();
  std::vector<CheckedFeedstock> checked;
  std::vector<std::string> ids;
  for (Table& table : root.tables("feedstock")) {
    table.require("id", "write id = \"a-short-name\"");
    const auto id = table.read("id", read_name);
    if (!id) continue;
    Feedstock row;
    read_feedstock(table, row);
    table.finish();
    if (std::find(ids.begin(), ids.end(), *id) != ids.end())
      table.problem_at("id", "\"" + *id + "\" stands twice in this file", "give each row an id of its own");
    ids.push_back(*id);
    const bool says_like = !row.like.empty();
    table.read(says_like ? "like" : "id", [&](std::string_view name) {
      try {
        checked.push_back(check(row, find_feedstock(materials, name), materials));
      } catch (const TextError& error) {
        throw TextError(error.what(), says_like ? error.hint() : "say which row it is like: like = \"grass-clippings\"");
      }
      return true;
    });
  }
  for (const char* other : {"container", "compost", "source", "caution", "keep_out", "rough", "yield", "symptom", "climate", "test", "turf",
                            "check", "step", "rule", "starting_carbon_to_nitrogen"})
    root.expect(other);  // not checked here
  root.finish();
  if (checked.empty() && problems.none())
    root.problem("there is no [[feedstock]] to check", "write [[feedstock]] with id, like and its figures");
  problems.throw_if_any();
  return checked;
}

}  // namespace heapwright
