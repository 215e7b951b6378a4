#include "heapwright/page/parts.hpp"

#include <algorithm>
#include <utility>

#include "heapwright/materials/rows.hpp"

namespace heapwright {
namespace {

constexpr std::size_t most_cautions = 3;
constexpr std::size_t most_sources = 3;
constexpr std::size_t one_line = 66;  // of letters, beside what stands around them
constexpr std::size_t a_range = 24;   // of letters: "49, from 27 to 72"

}  // namespace

std::vector<Caution> cautions_of_today(const Grounds& grounds, const Materials& materials, const WorkSteps& today) {
  std::vector<Caution> cautions;
  for (const std::string& id : grounds.cautions) {
    const Caution* caution = row_with_id(*materials.cautions, id);
    if (caution == nullptr || caution->first || !today.contains(caution->step)) continue;
    if (cautions.size() < most_cautions || caution->harms) cautions.push_back(*caution);
  }
  return cautions;
}

std::vector<Caution> cautions_of(const Grounds& grounds, const Materials& materials) {
  std::vector<Caution> cautions;
  for (const std::string& id : grounds.cautions) {
    if (const Caution* caution = row_with_id(*materials.cautions, id)) cautions.push_back(*caution);
  }
  return cautions;
}

Words to_measure(const Measurement& first) {
  switch (first.how) {
    case HowToMeasure::weigh: return say("weigh one full {} of {}", first.container.name, first.name);
    case HowToMeasure::dry: return say("weigh a handful of {}, dry it, weigh it again", first.name);
    case HowToMeasure::count: return say("count the {} in place of the guess", first.name);
  }
  return {};
}

Words rests_on(const Grounds& grounds) {
  std::vector<Words> sources;
  std::size_t letters = 0;
  for (const Assumption& assumption : grounds.assumptions) {
    if (assumption.in_short.empty()) continue;
    letters += assumption.what.size() + assumption.in_short.size() + a_range;
    if (!sources.empty() && (letters > one_line || sources.size() == most_sources)) break;
    sources.push_back(say("{}, {}: {}", assumption.what, AssumedFigure{assumption}, assumption.in_short));
  }
  return joined(sources, "; ");
}

namespace {

Words written_down(const Measurement& first) {
  switch (first.how) {
    case HowToMeasure::weigh: return say("weighed = { container = \"{}\", full = \"… lb\", empty = \"… lb\" }", first.container.id);
    case HowToMeasure::dry: return "dried = { wet = \"… g\", dry = \"… g\" }";
    case HowToMeasure::count: return say("amount = \"… {}\"", first.container.id);
  }
  return {};
}

void how_to_measure(PageWriter& writer, const Grounds& grounds) {
  if (!grounds.measure_first) return;
  const Measurement& first = *grounds.measure_first;
  writer.section(Depth::why)
      .paragraph(say("To measure first: {}{}. Nothing else would narrow this answer as much. In the yard file: {}", to_measure(first),
                     first.how == HowToMeasure::dry ? " (dry it in a warm airy place)" : "", written_down(first)));
}

void grounds_of(PageWriter& writer, const Grounds& grounds, const Materials& materials) {
  std::vector<Words> assumed;
  for (const Assumption& assumption : grounds.assumptions)
    assumed.push_back(say("{}: {} ({})", assumption.what, AssumedFigure{assumption}, assumption.evidence));
  writer.section(Depth::ground, "I took it as (what could change the answer most comes first)").bullets(std::move(assumed));
  if (grounds.working)
    writer.section(Depth::act, "The working, step by step, with the digits to do it again").block(WorkedOut{*grounds.working});
  std::vector<Caution> cautions = cautions_of(grounds, materials);
  writer.section(Depth::ground, "Mind");
  if (!cautions.empty()) writer.block(Warnings{std::move(cautions), false});
}

}  // namespace

PageWriter& PageWriter::section(Depth depth, Words heading) {
  page_.sections.push_back({depth, std::move(heading), {}});
  return *this;
}

PageWriter& PageWriter::paragraph(Words words) { return words.empty() ? *this : block(Paragraph{std::move(words)}); }

PageWriter& PageWriter::bullets(std::vector<Words> items) { return items.empty() ? *this : block(Bullets{std::move(items)}); }

PageWriter& PageWriter::labels(Labels labels) { return labels.labels.empty() ? *this : block(std::move(labels)); }

PageWriter& PageWriter::block(Block block) {
  if (page_.sections.empty()) section(Depth::act);
  page_.sections.back().blocks.push_back(std::move(block));
  return *this;
}

Page PageWriter::page() && {
  std::erase_if(page_.sections, [](const Section& section) { return section.blocks.empty(); });
  std::stable_sort(page_.sections.begin(), page_.sections.end(),
                   [](const Section& one, const Section& other) { return one.depth < other.depth; });
  return std::move(page_);
}

std::vector<Words> first_of(std::vector<Words> words, std::size_t most) {
  if (words.size() > most) words.resize(most);
  return words;
}

Number whole(long long count) { return {static_cast<double>(count), 12}; }

std::string capital(std::string text) {
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z') text.front() = static_cast<char>(text.front() - 'a' + 'A');
  return text;
}

Words capital(const Words& words) {
  Words sentence;
  for (const Fragment& fragment : words.fragments()) {
    const std::string* text = std::get_if<std::string>(&fragment);
    if (text != nullptr && sentence.empty()) {
      sentence += capital(*text);
    } else {
      std::visit([&](const auto& value) { sentence += value; }, fragment);
    }
  }
  return sentence;
}

void end_act(PageWriter& writer, const Grounds& grounds, const Materials& materials, const WorkSteps& today) {
  writer.section(Depth::act);
  if (grounds.measure_first) writer.paragraph(say("Measure first: {}.", to_measure(*grounds.measure_first)));
  const std::vector<Caution> cautions = cautions_of_today(grounds, materials, today);
  if (!cautions.empty()) writer.block(Warnings{cautions, true});
  const Words sources = rests_on(grounds);
  if (!sources.empty()) writer.paragraph(say("Rests on {}.", sources));
}

void urgent_cautions(PageWriter& writer, const Grounds& grounds, const Materials& materials) {
  writer.section(Depth::act);
  for (const std::string& id : grounds.cautions) {
    const Caution* caution = row_with_id(*materials.cautions, id);
    if (caution != nullptr && caution->first) writer.paragraph(caution->text);
  }
}

Page finished(PageWriter writer, const Grounds& grounds, const Materials& materials) {
  how_to_measure(writer, grounds);
  grounds_of(writer, grounds, materials);
  return std::move(writer).page();
}

namespace {

/// "leaf bag"; "x 30-gallon bag", which stands behind a number.
std::string name_behind_number(const ContainerCount& counted, const Materials& materials) {
  const Container* container = row_with_id(*materials.containers, counted.container);
  std::string name = container != nullptr ? container->name : counted.container;
  std::replace(name.begin(), name.end(), '-', ' ');
  if (name.find_first_of("0123456789") == 0) name.insert(0, "x ");
  return name;
}

}  // namespace

Words amount_of(const std::optional<ContainerCount>& counted, Volume volume, const Materials& materials) {
  if (!counted) return volume;
  return Count{counted->count, name_behind_number(*counted, materials), true};
}

Words as_counted(const ContainerCount& counted, const Materials& materials) {
  return CountAsSaid{counted.count, name_behind_number(counted, materials)};
}

Words own_measure(const RecipeAmount& amount, const std::optional<ContainerCount>& containers, Volume volume, const Materials& materials) {
  if (!containers && amount.counted_by_mass && is_positive(amount.volume)) return Mass(amount.mass * (volume / amount.volume).value());
  return amount_of(containers, volume, materials);
}

Words carried(WaterMass water, const Materials& materials) {
  const Container* can = row_with_id(*materials.containers, "watering-can");
  if (can == nullptr) return water;
  return CarriedWater{water, can->volume};
}

}  // namespace heapwright
