#pragma once
/// The linear programme of a recipe: README.md beside this file, in its order and its letters. A kernel of plain numbers, in SI; quantities
/// go in and come out.

#include <array>
#include <optional>
#include <utility>
#include <vector>

#include "heapwright/linear_program/linear_program.hpp"
#include "heapwright/recipe/amounts.hpp"
#include "heapwright/recipe/recipe.hpp"

namespace heapwright {

/// The windows of a pile, each with its own distance from the aim.
enum class Aim : std::size_t { carbon_to_nitrogen, moisture, air };
inline constexpr std::array<Aim, 3> all_aims{Aim::carbon_to_nitrogen, Aim::moisture, Aim::air};

/// Amounts of one kilogram of a supply, in the letters of README.md.
struct PerKilogram {
  double dry;
  double water;
  double carbon;
  double nitrogen;
  double loose;   ///< 1/ρ, m³
  double solids;  ///< solids and water, m³
};

/// Sums over a pile, in the same letters.
struct Sums {
  double water = 0.0;     // H
  double total = 0.0;     // T
  double carbon = 0.0;    // C
  double nitrogen = 0.0;  // N
  double volume = 0.0;    // V
  double solids = 0.0;    // S
};

/// README, swelling: the dry matter of what has no limit, over that of what has.
inline constexpr double usual_swelling = 4.0;

/// Which of the hard limits stand; some are lifted to learn what they cost.
struct HardLimits {
  bool fill = true;
  bool capacity = true;
  bool shares = true;
  bool water = true;
  WaterMass least_water{};           ///< of what is added
  double swelling = usual_swelling;  ///< at most; does not count where nothing is endless or limited, or a fill is wanted
};

/// The programme of one question, solved goal after goal, each within what the earlier ones kept.
class Programme {
 public:
  /// @param question must outlive the programme
  explicit Programme(const RecipeQuestion& question, const HardLimits& limits = {});
  explicit Programme(RecipeQuestion&& question, const HardLimits& limits = {}) = delete;

  /// Everything on hand goes in, nothing else, and the hard limits but that of water do not count.
  static Programme of_everything_in(const RecipeQuestion& question);

  /// Whether any amounts meet the hard limits.
  bool possible();
  /// The greatest settled volume within the hard limits, whatever the distance; nothing where none meets them.
  std::optional<Volume> greatest_volume_of_all();
  /// The least settled volume within all bounds.
  std::optional<Volume> least_volume();

  /// README, the distance t: of one window, and the largest of the three.
  double own_distance(Aim aim, const Amounts& amounts) const;
  double distance(const Amounts& amounts) const;

  /// Bounds the distance of one window, or of all, from here on.
  void limit(Aim aim, double distance);
  void limit_all(double distance);
  /// A window that does not count any more.
  void lift(Aim aim);

  /// Whether there is a limit of swelling.
  bool swells() const { return swelling_.has_value(); }
  /// Another limit of swelling, where there is one.
  void limit_swelling(double times);
  const HardLimits& hard_limits() const { return hard_; }

  /// The least common distance of some windows, the others within their bounds. Does not change the bounds.
  /// Nothing where no amounts are within the hard limits and the others' bounds.
  std::optional<double> least_distance(const std::vector<Aim>& aims);

  /// All windows lowered one after the other as far as they go, and bounded there (README, stage 3).
  void lower_distances();

  /// Uses up some supplies fairly (README, fair use) and keeps what that gives. Returns the smallest used fraction.
  double use_fairly(std::vector<std::size_t> supplies);

  /// Goals. Each gives its optimum, in SI, and keeps it.
  double keep_least_cost();
  double keep_least_volume_bought();
  double keep_least_water();
  double keep_least_mass();
  double keep_least_loose_volume();
  double keep_greatest_volume();
  /// Keeps the cost at or below a sum of money.
  void limit_cost(Cost cost);

  /// Amounts within all bounds, of the last goal kept.
  const Amounts& amounts() const { return amounts_; }

 private:
  using Variable = LinearProgram::Variable;
  using Row = LinearProgram::Row;
  using Terms = LinearProgram::Terms;

  struct WindowRow {
    Aim aim;
    Row row;
    bool low;
  };

  Programme(const RecipeQuestion& question, const HardLimits& limits, bool everything_in);

  void add_supplies(bool everything_in);
  void add_hard_limits();
  void add_limit_of_swelling();
  void add_windows();

  double edge(Aim aim, bool low, double distance) const;
  Terms window_terms(const WindowRow& row, double distance) const;
  double slack_weight(const WindowRow& row, double distance, const Sums& sums) const;
  void set_window(const WindowRow& row, double distance, double weight);

  LinearProgram::Term of_supply(std::size_t supply, double per_kilogram) const;
  Terms sum_of(double PerKilogram::*part, double of_water) const;
  Terms volume_terms() const;
  Terms swelling_terms(double times) const;
  Terms not_raised_volume_terms() const;
  Terms cost_terms() const;
  Sums sums_of(const Amounts& amounts) const;
  Amounts amounts_in(const LinearProgram::Solution& solution) const;
  std::vector<std::size_t> blocked_at(double fraction, std::vector<std::size_t> supplies);
  enum class Sense { least, greatest };
  std::optional<double> optimise(const Terms& terms, Sense sense);
  double keep(Terms terms, Sense sense);
  void loosen_nothings();
  void add_row_near_one(Terms terms, double low, double high);
  double value_of(const Terms& terms, const Amounts& amounts) const;

  const RecipeQuestion* question_;
  HardLimits hard_;
  double scale_ = 1.0;
  double nitrogen_scale_ = 1.0;
  double settling_;
  std::vector<PerKilogram> per_kg_;
  std::array<double, 3> limits_;
  std::array<bool, 3> lifted_{};

  LinearProgram program_;
  std::vector<Variable> x_;
  std::vector<double> unit_;  ///< of each supply's variable, in the mass scale: all there is of it, so that a trace counts as well as a ton
  std::vector<double> floors_;  ///< what each supply has been promised, in its unit
  Variable water_{0};
  Variable slack_{0};     ///< by how much the windows asked about may be missed; stage "least t"
  Variable fraction_{0};  ///< the smallest used fraction; "fair use"
  std::vector<WindowRow> windows_;
  std::optional<Row> swelling_;
  std::vector<std::pair<Row, double>> nothings_;  ///< rows that keep a sum at nothing, with its optimum
  Amounts amounts_;
};

/// Supplies that a recipe tries to use up (README, kinds of supply), of one class or, without, of all.
std::vector<std::size_t> raised_supplies(const RecipeQuestion& question, std::optional<FeedstockClass> of_class = std::nullopt);

}  // namespace heapwright
