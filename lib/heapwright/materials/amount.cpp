#include "heapwright/materials/amount.hpp"

#include <algorithm>
#include <cmath>

#include "heapwright/error.hpp"
#include "heapwright/materials/called.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

/// "bags of leaves" is a number of bags: what is in them is the feedstock's business.
std::string without_contents(const std::string& words) { return words.substr(0, words.find(" of ")); }

/// "wheelbarrow loads", "buckets full" and "bucketfuls" are wheelbarrows and buckets.
std::string without_measure(std::string words) {
  for (const std::string_view ending : {"s", "load", "ful", "full"}) {
    if (words.ends_with(ending)) words = words.substr(0, words.size() - ending.size());
  }
  while (words.ends_with(' ') || words.ends_with('-')) words.pop_back();
  return words;
}

}  // namespace

ContainerCount so_many(double count, const Container& container) { return {container.id, count, container.volume, container.packings}; }

double to_the_half(double count) {
  constexpr double rounding = 1e-6;
  const double halves = std::round(2.0 * count) / 2.0;
  return count < 10.0 || std::abs(halves - count) <= rounding * count ? halves : std::round(count);
}

const Container* find_container(const std::vector<Container>& containers, std::string_view name) {
  const std::string whole(name);
  const std::string bare = without_contents(whole);
  for (const std::string& words : {whole, bare, without_measure(bare)}) {
    const std::string plain = plain_name(words);
    const auto found =
        std::find_if(containers.begin(), containers.end(), [&](const Container& container) { return is_called(container, plain); });
    if (found != containers.end()) return &*found;
  }
  return nullptr;
}

bool is_amount(std::string_view text, const std::vector<Container>& containers) {
  const std::optional<CountedWords> counted = counted_words(text);
  if (!counted) return false;
  return find_container(containers, counted->words) != nullptr || is_quantity(text, Dimension::volume) ||
         is_quantity(text, Dimension::mass);
}

Amount read_amount(std::string_view text, const std::vector<Container>& containers) {
  const CountedWords counted = read_counted_words(text);
  const std::string whole = plain_name(text);
  if (std::any_of(containers.begin(), containers.end(), [&](const Container& container) { return is_called(container, whole); }))
    throw TextError("\"" + std::string(text) + "\" is the name of a container: how many of them?", "write \"1 " + std::string(text) + "\"");
  if (counted.words.empty())
    throw TextError("\"" + std::string(text) + "\" has no unit",
                    "write containers, a volume or a weight: \"6 leaf-bag\", \"1/2 yd3\", \"40 lb\"");
  if (const Container* container = find_container(containers, counted.words)) return so_many(counted.number, *container);
  std::vector<std::string> ids;
  for (const Container& container : containers) ids.push_back(container.id);
  return std::visit([](auto quantity) { return Amount(quantity); }, read_volume_or_mass(text, ids));
}

std::optional<AmountRange> read_amount_range(std::string_view text, const std::vector<Container>& containers) {
  constexpr std::string_view joint = " to ";
  const std::size_t at = text.find(joint);
  if (at == std::string_view::npos) return std::nullopt;
  const Amount high = read_amount(text.substr(at + joint.size()), containers);
  const CountedWords first = read_counted_words(text.substr(0, at));
  const CountedWords second = read_counted_words(text.substr(at + joint.size()));
  if (!first.words.empty() && plain_name(first.words) != plain_name(second.words))
    throw TextError("\"" + std::string(text) + "\" has two units", "write one: \"20 to 25 bags\"");
  if (!(first.number < second.number) || !(first.number > 0.0))
    throw TextError("\"" + std::string(text) + "\" is no range: the second number is not the larger", "write \"20 to 25 bags\"");
  const double middle = (first.number + second.number) / 2.0;
  return AmountRange{times(middle / second.number, high), first.number / middle, second.number / middle};
}

Amount times(double factor, const Amount& amount) {
  if (const ContainerCount* counted = std::get_if<ContainerCount>(&amount))
    return ContainerCount{counted->container, factor * counted->count, counted->each, counted->packings};
  if (const Volume* volume = std::get_if<Volume>(&amount)) return Volume(factor * *volume);
  return Mass(factor * std::get<Mass>(amount));
}

std::optional<Volume> volume_of(const Amount& amount) {
  if (const Volume* volume = std::get_if<Volume>(&amount)) return *volume;
  if (const ContainerCount* counted = std::get_if<ContainerCount>(&amount)) return counted->count * counted->each;
  return std::nullopt;
}

std::optional<Mass> mass_of(const Amount& amount, std::optional<BulkDensity> density) {
  if (const Mass* mass = std::get_if<Mass>(&amount)) return *mass;
  if (!density) return std::nullopt;
  return *volume_of(amount) * *density;
}

bool is_zero(const Amount& amount) {
  if (const Mass* mass = std::get_if<Mass>(&amount)) return !is_positive(*mass);
  return !is_positive(*volume_of(amount));
}

}  // namespace heapwright
