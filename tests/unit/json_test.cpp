// No number of the JSON is NaN or infinite, whatever the answer.
#include "heapwright/report/json.hpp"

#include <catch2/catch.hpp>

#include <limits>

#include "heapwright/error.hpp"
#include "heapwright/plan/plan.hpp"
#include "heapwright/report/json_parts.hpp"
#include "yards.hpp"

using namespace heapwright;
using yards::supply;

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double no_number = std::numeric_limits<double>::quiet_NaN();
constexpr Date april_20{std::chrono::year(2026), std::chrono::month(4), std::chrono::day(20)};

Json printed_and_read(const Json& json) { return Json::parse(printed(json)); }

}  // namespace

TEST_CASE("a number that is not finite is refused wherever it stands", "[json]") {
  for (const double number : {infinity, -infinity, no_number}) {
    CAPTURE(number);
    CHECK_THROWS_AS(printed(number), DomainError);
    CHECK_THROWS_AS(printed(Json{{"volume_m3", number}}), DomainError);
    CHECK_THROWS_AS(printed(Json::array({1.0, number})), DomainError);
    const Json day{{"core_degc", number}};
    CHECK_THROWS_AS(printed(Json{{"first", Json::array()}, {"pile", {{"days", Json::array({0.0, day})}}}}), DomainError);
  }
}

TEST_CASE("each finite number is printed so that it is read back", "[json]") {
  using Limits = std::numeric_limits<double>;
  for (const double number : {0.0, 0.1, -40.0, 1.0 / 3.0, Limits::max(), Limits::min(), Limits::denorm_min()}) {
    CAPTURE(number);
    const Json json{{"number", number}, {"none", nullptr}, {"words", "NaN"}, {"count", 41}};
    CHECK(printed_and_read(json) == json);
  }
}

TEST_CASE("the C:N of what has no nitrogen is null, and one that is no number is refused", "[json]") {
  const Yard one = yards::yard(supply("leaves", "20 leaf-bag") + supply("clippings", "15 bucket") +
                               "[climate]\ncoldest_month = \"60 degF\"\nwarmest_month = \"80 degF\"\n");
  Answer<YardForecast> coming = forecast_of(one, first_recipe(one, april_20), april_20);
  REQUIRE(coming->forecast);
  const auto json = [&] { return Json::parse(json_of_forecast(coming, one.tables.materials)); };
  const double finished = coming->forecast->finished.carbon_to_nitrogen.value();
  CHECK(json()["finished"]["carbon_to_nitrogen"] == finished);

  coming->forecast->finished.carbon_to_nitrogen = carbon_to_nitrogen(infinity);
  coming->forecast->days.back().state.carbon_to_nitrogen = carbon_to_nitrogen(infinity);
  CHECK(json()["finished"]["carbon_to_nitrogen"].is_null());
  CHECK(json()["carbon_to_nitrogen"].back().is_null());
  CHECK(json()["carbon_to_nitrogen"].front().is_number());

  coming->forecast->finished.carbon_to_nitrogen = carbon_to_nitrogen(no_number);
  CHECK_THROWS_AS(json(), DomainError);
}
