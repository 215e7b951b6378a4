#include <algorithm>

#include "heapwright/materials/rows.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/page/parts.hpp"
#include "heapwright/page/season_parts.hpp"
#include "heapwright/time/date.hpp"

namespace heapwright {
namespace {

/// In the measure it was counted in: "2 buckets", "40 lb", "3 gallons".
Words measured(const Amount& amount, const Materials& materials) {
  if (const Mass* mass = std::get_if<Mass>(&amount)) return *mass;
  const Volume* volume = std::get_if<Volume>(&amount);
  if (volume == nullptr) return as_counted(std::get<ContainerCount>(amount), materials);
  const Volume told_in_gallons = unit::cubic_foot;
  return *volume < told_in_gallons ? Words(Capacity{*volume}) : Words(*volume);
}

Words measured_of(const Amount& amount, const std::string& name, const Materials& materials) {
  const ContainerCount* counted = std::get_if<ContainerCount>(&amount);
  const Container* container = counted != nullptr ? row_with_id(*materials.containers, counted->container) : nullptr;
  const bool is_named = container != nullptr && container->name.starts_with(name);  // "13 straw bales"
  return is_named ? measured(amount, materials) : say("{} of {}", measured(amount, materials), name);
}

/// "autumn leaves (shredded)" of what does not lie as usual.
std::string name_as_it_lies(const Supply& supply) {
  if (supply.shredded) return supply.feedstock.name + " (shredded)";
  const bool usual = supply.packing_assumed || supply.packing == supply.feedstock.usual_packing;
  return usual ? supply.feedstock.name : supply.feedstock.name + " (" + supply.packing + ")";
}

Words water_words(WaterMass water) { return say("{} of water", water); }

Words load_words(const Load& load, const Materials& materials) {
  std::vector<Words> parts;
  if (load.supply) {
    const Words thing = measured_of(*load.supply->amount, name_as_it_lies(*load.supply), materials);
    parts.push_back(load.supply->estimated ? say("about {}", thing) : thing);
  }
  if (is_positive(load.water)) parts.push_back(water_words(load.water));
  return listed(parts);
}

}  // namespace

Words in_all_words(const std::vector<Load>& loads, const Materials& materials) {
  const AllLoaded all = sum_of(loads);
  std::vector<Words> parts;
  for (const LoadedInAll& thing : all.things) parts.push_back(measured_of(thing.amount, thing.feedstock.name, materials));
  if (is_positive(all.water)) parts.push_back(water_words(all.water));
  return joined(parts);
}

namespace {

/// "5 loads since Nov 7", "1 load on Nov 7"; with the year where it is not that of the last.
Words count_words(const std::vector<Load>& loads) {
  const Date first = loads.front().date;
  const bool another_year = first.year() != loads.back().date.year();
  const Words day = another_year ? say("{}, {}", DayOfMonth{first}, whole(static_cast<int>(first.year()))) : Words(DayOfMonth{first});
  if (loads.size() == 1) return say("1 load on {}", day);
  return say("{} loads {} {}", whole(static_cast<long long>(loads.size())), first == loads.back().date ? "on" : "since", day);
}

Words so_far_words(const std::vector<Load>& loads, const Materials& materials) {
  return say("So far: {}; {}.", count_words(loads), in_all_words(loads, materials));
}

/// The latest of them, in their order.
Grid loads_table(const std::vector<Load>& loads, std::size_t most, const Materials& materials) {
  Grid grid{{"Day", "Went in"}, {}};
  for (std::size_t i = loads.size() - std::min(most, loads.size()); i < loads.size(); ++i)
    grid.rows.push_back({loads[i].date, load_words(loads[i], materials)});
  return grid;
}

void say_loads(PageWriter& writer, const std::vector<Load>& loads, const Materials& materials) {
  constexpr std::size_t most_on_a_screen = 12;
  const bool has_more = loads.size() > most_on_a_screen;
  if (has_more) writer.paragraph(say("The latest {} of {} loads:", whole(most_on_a_screen), whole(static_cast<long long>(loads.size()))));
  writer.block(loads_table(loads, most_on_a_screen, materials));
  writer.paragraph(so_far_words(loads, materials));
  if (has_more) writer.section(Depth::ground, "All of them").block(loads_table(loads, loads.size(), materials));
}

/// Where one of those added stands in the file more than once: how to take one out.
void say_alike(PageWriter& writer, const std::vector<Load>& added, const std::vector<Load>& all, const std::string& file,
               const Materials& materials) {
  for (auto load = added.begin(); load != added.end(); ++load) {
    const auto is_like_it = [&](const Load& other) { return are_alike(*load, other); };
    const auto times = std::count_if(all.begin(), all.end(), is_like_it);
    const bool told = std::any_of(added.begin(), load, is_like_it);
    if (times < 2 || told) continue;
    writer.paragraph(say("There are {} loads of {} on {} now. If that is one too many, delete the last such [[load]] from {}.",
                         whole(times), load_words(*load, materials), DayOfMonth{load->date}, file));
  }
}

}  // namespace

Page loads_page(const std::vector<Load>& loads, const std::string& file, const Materials& materials) {
  PageWriter writer("What went in");
  writer.section(Depth::act);
  if (loads.empty()) {
    writer.paragraph(say("Nothing that went in is written down in {} yet.", file));
    writer.paragraph(say("To write it down: heapwright load {} \"2 buckets leaves\"", file));
  } else {
    say_loads(writer, loads, materials);
  }
  return std::move(writer).page();
}

Page added_loads_page(const std::vector<Load>& added, const std::vector<Load>& all, const std::string& file, const Materials& materials) {
  PageWriter writer("What went in");
  std::vector<Words> parts;
  for (const Load& load : added) parts.push_back(load_words(load, materials));
  writer.section(Depth::act);
  writer.paragraph(say("Added to {}: {}, {}.", file, listed(parts), DayOfWeek{added.front().date}));
  writer.paragraph(so_far_words(all, materials));
  say_alike(writer, added, all, file, materials);
  return std::move(writer).page();
}

}  // namespace heapwright
