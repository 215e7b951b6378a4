#pragma once
/// Amounts as people have them: so many bags, so many pounds, so many cubic yards.

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "heapwright/materials/published_value.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

/// What people carry and count in.
struct Container {
  std::string id;
  std::string name;
  std::vector<std::string> also;
  Volume volume;
  std::optional<Volume> low;  ///< where it comes in several sizes
  std::optional<Volume> high;
  bool lifted = true;  ///< by hand, when full; a wheelbarrow is not
  /// How what is in it lies, where the container says so, the first that a feedstock has: a bale is packed; what comes in a mower's catcher
  /// is shredded, or collected.
  std::vector<std::string> packings;
  std::string source;
  Evidence evidence = Evidence::own;
  std::string note;
};

/// So many of a container.
struct ContainerCount {
  std::string container;  ///< its id
  double count = 0.0;
  Volume each;
  std::vector<std::string> packings{};  ///< as the container's
  friend bool operator==(const ContainerCount&, const ContainerCount&) = default;
};

/// So many of a container, with its volume and how its contents lie.
ContainerCount so_many(double count, const Container& container);

/// A count as people count: to the half, from ten on to the whole unless it is a half.
double to_the_half(double count);

/// A volume, an as-is mass, or so many of a container.
using Amount = std::variant<Volume, Mass, ContainerCount>;

/// The container of an id or an everyday name ("leaf bags"), or none.
const Container* find_container(const std::vector<Container>& containers, std::string_view name);

/// Whether a text is an amount: of containers that are known, a volume or a mass. @throws TextError for a number that is none: "1/0 lb"
bool is_amount(std::string_view text, const std::vector<Container>& containers);

/// "24 leaf-bag", "3 1/2 yd3", "40 lb". @throws TextError
Amount read_amount(std::string_view text, const std::vector<Container>& containers);

/// The volume of an amount that is not a mass.
std::optional<Volume> volume_of(const Amount& amount);

/// Two amounts that somebody hesitates between.
struct AmountRange {
  Amount likely;  ///< half way
  double low;     ///< times likely
  double high;    ///< times likely
};
/// "20 to 25 bags", "1/2 to 1 yd3"; nothing for a text without "to". @throws TextError, also where the second is not the larger
std::optional<AmountRange> read_amount_range(std::string_view text, const std::vector<Container>& containers);

/// As-is mass of an amount: a mass as it is, of a volume V ρ, of containers count × volume × ρ. Nothing where it wants the bulk density ρ
/// and that is absent.
std::optional<Mass> mass_of(const Amount& amount, std::optional<BulkDensity> density);

/// So many times an amount, in the same measure.
Amount times(double factor, const Amount& amount);

/// Whether there is none of it.
bool is_zero(const Amount& amount);

}  // namespace heapwright
