// How long the parts of an answer take, and beside some of them what the same costs elsewhere: raw doubles, GLPK. Run by hand:
// cmake -DHEAPWRIGHT_BENCHMARKS=ON (wants libglpk-dev), then build/tests/heapwright-bench. tests/bench/draws.py has NumPy's draws.
#define CATCH_CONFIG_MAIN
#define CATCH_CONFIG_ENABLE_BENCHMARKING
#include <catch2/catch.hpp>

#include <array>
#include <glpk.h>
#include <memory>

#include "../reference/process_runs.hpp"
#include "heapwright/linear_program/linear_program.hpp"
#include "heapwright/mix/ranges.hpp"
#include "heapwright/plan/answers.hpp"
#include "heapwright/plan/plan.hpp"

using namespace heapwright;

namespace {

const Date november{std::chrono::year(2026), std::chrono::month(11), std::chrono::day(7)};
const std::string example = HEAPWRIGHT_EXAMPLES_FOLDER "/quarter-acre.toml";

/// Four buckets of each.
struct Buckets {
  explicit Buckets(std::initializer_list<const char*> feedstocks) {
    for (const char* id : feedstocks) {
      supplies.push_back(supply_of(materials, id));
      Supply& supply = supplies.back();
      set_amount(supply, read_amount("4 buckets", materials));
      blend.ingredients.push_back(supply.ingredient(*supply.mass(*supply.amount)));
    }
    for (std::size_t i = 0; i < supplies.size(); ++i) taken.push_back({&supplies[i], blend.ingredients[i].mass});
  }

  Materials materials = built_in_materials();
  std::vector<Supply> supplies;
  Blend blend;
  std::vector<Taken> taken;
};

const auto six = {"leaves-fall", "grass-clippings", "kitchen-scraps", "coffee-grounds", "straw", "sawdust"};
const auto eight = {"leaves-fall", "grass-clippings", "kitchen-scraps", "coffee-grounds", "straw", "sawdust", "wood-chips", "horse-manure"};

/// The sums of mix_of without types.
struct Raw {
  double mass, moisture, carbon, nitrogen, organic_matter, particle_density, bulk_density;
};
std::array<double, 4> raw_mix(const std::vector<Raw>& ingredients, double added) {
  double water = added, dry = 0.0, carbon = 0.0, nitrogen = 0.0, organic_matter = 0.0, loose = 0.0, solids = 0.0;
  for (const Raw& of : ingredients) {
    const double own = of.mass * (1.0 - of.moisture);
    water += of.mass * of.moisture;
    dry += own;
    carbon += own * of.carbon;
    nitrogen += own * of.nitrogen;
    organic_matter += own * of.organic_matter;
    loose += of.mass / of.bulk_density;
    solids += own / of.particle_density;
  }
  return {carbon / nitrogen, water / (water + dry), 1.0 - (solids + water / 1000.0) / loose, organic_matter};
}
std::vector<Raw> raw(const Blend& blend) {
  std::vector<Raw> all;
  for (const Ingredient& of : blend.ingredients) {
    const Properties& is = of.properties;
    all.push_back({of.mass.value(), is.moisture.value(), is.carbon.value(), is.nitrogen.value(), is.organic_matter.value(),
                   is.particle_density.value(), of.density->value()});
  }
  return all;
}

/// A linear programme as a recipe asks many: of eight supplies the most within twelve rows, again and again with other limits.
constexpr int columns = 8;
constexpr int rows = 12;
constexpr int times_asked = 20;
double coefficient(int row, int column) { return 0.1 + ((7 * row + 5 * column) % 11) / 10.0; }
double room(int row, int time) { return 3.0 + 0.25 * row + 0.05 * time; }

double asked_of_ours() {
  LinearProgram programme;
  LinearProgram::Terms all;
  for (int column = 0; column < columns; ++column) all.push_back({programme.add_variable(0.0, 1.0), 1.0 + 0.1 * column});
  std::vector<LinearProgram::Row> limits;
  for (int row = 0; row < rows; ++row) {
    LinearProgram::Terms terms;
    for (int column = 0; column < columns; ++column)
      terms.push_back({all[static_cast<std::size_t>(column)].variable, coefficient(row, column)});
    limits.push_back(programme.add_row(terms, -LinearProgram::unlimited, room(row, 0)));
  }
  double sum = 0.0;
  for (int time = 0; time < times_asked; ++time) {
    for (int row = 0; row < rows; ++row)
      programme.set_bounds(limits[static_cast<std::size_t>(row)], -LinearProgram::unlimited, room((row * time) % rows, time));
    sum += programme.maximise(all)->optimum;
  }
  return sum;
}

double asked_of_glpk() {
  const std::unique_ptr<glp_prob, decltype(&glp_delete_prob)> programme(glp_create_prob(), glp_delete_prob);
  glp_set_obj_dir(programme.get(), GLP_MAX);
  glp_add_cols(programme.get(), columns);
  glp_add_rows(programme.get(), rows);
  for (int column = 0; column < columns; ++column) {
    glp_set_col_bnds(programme.get(), column + 1, GLP_DB, 0.0, 1.0);
    glp_set_obj_coef(programme.get(), column + 1, 1.0 + 0.1 * column);
  }
  for (int row = 0; row < rows; ++row) {
    std::array<int, columns + 1> places{};
    std::array<double, columns + 1> coefficients{};
    for (int column = 0; column < columns; ++column) {
      places[static_cast<std::size_t>(column) + 1] = column + 1;
      coefficients[static_cast<std::size_t>(column) + 1] = coefficient(row, column);
    }
    glp_set_mat_row(programme.get(), row + 1, columns, places.data(), coefficients.data());
  }
  glp_smcp options;
  glp_init_smcp(&options);
  options.msg_lev = GLP_MSG_OFF;
  double sum = 0.0;
  for (int time = 0; time < times_asked; ++time) {
    for (int row = 0; row < rows; ++row) glp_set_row_bnds(programme.get(), row + 1, GLP_UP, 0.0, room((row * time) % rows, time));
    glp_simplex(programme.get(), &options);
    sum += glp_get_obj_val(programme.get());
  }
  return sum;
}

/// The passive home pile of the reference runs, 365 days in a forecast's steps.
double year_of_a_pile() {
  static const ProcessParameters best = built_in_ensemble().best;
  const runs::Run& run = runs::all().at("R1");
  Pile pile = run.pile(best);
  for (int at = 0; at < 365; ++at) {
    run.events(pile, best, at);
    pile.live_a_day(run.air(at), hourly_steps);
  }
  return pile.state().core.celsius();
}

}  // namespace

TEST_CASE("what is read") {
  const Tables tables = built_in_tables();
  BENCHMARK("all tables") {
    const Materials materials = built_in_materials();
    return materials.feedstocks->size() + materials.containers->size() + materials.cautions->size();
  };
  BENCHMARK("a yard file") { return read_yard(example, tables); };
}

TEST_CASE("a mix") {
  const Buckets of(six);
  const std::vector<Raw> in_doubles = raw(of.blend);
  CHECK(raw_mix(in_doubles, 0.0)[0] == Approx(mix_of(of.blend).carbon_to_nitrogen->value()).epsilon(1e-12));
  BENCHMARK("mixed, with names and parts") { return mix_of(of.blend); };
  BENCHMARK("its sums in raw doubles") { return raw_mix(in_doubles, 0.0); };
}

TEST_CASE("draws") {
  const Buckets of(six);
  const std::vector<Varied> figures = varied(of.blend, of.taken, of.materials);
  CHECK(figures.size() >= 24);
  BENCHMARK("4096 draws of a mix of six") { return drawn_ranges(of.blend, figures, Targets()); };
}

TEST_CASE("a recipe") {
  const Buckets of(eight);
  const RecipeQuestion question = recipe_question(of.supplies, Targets(), {}, november, of.materials);
  BENCHMARK("of eight feedstocks") { return solve(question); };
}

TEST_CASE("a linear programme") {
  CHECK(asked_of_ours() == Approx(asked_of_glpk()).epsilon(1e-9));
  BENCHMARK("twenty times") { return asked_of_ours(); };
  BENCHMARK("twenty times by GLPK") { return asked_of_glpk(); };
}

TEST_CASE("a forecast") {
  const Yard yard = read_yard(example);
  const Answer<Recipe> recipe = first_recipe(yard, november);
  BENCHMARK("forty-one sets") { return forecast_of(yard, recipe, november).result; };
  BENCHMARK("a pile's year, six shells, a set alone") { return year_of_a_pile(); };
}

TEST_CASE("a plan") {
  const Yard yard = read_yard(example);
  BENCHMARK("of a yard") { return make_plan(yard, november).result; };
}
