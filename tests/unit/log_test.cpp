// Times and logs as thermometers and people write them, and what a gardener sees in them.

#include "heapwright/maturity/log.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "heapwright/error.hpp"
#include "heapwright/maturity/symptoms.hpp"
#include "heapwright/maturity/watched.hpp"
#include "logs.hpp"

using namespace heapwright;
using logs::log_of;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::sys_days;

namespace {

Watched seen_in(const std::string& text) { return watched(log_of(text)).value(); }

const std::chrono::sys_seconds eight = sys_days(std::chrono::year(2026) / 11 / 12) + hours(8);

/// A reading a day at eight, from 12 November on, turned on some days.
std::string daily(const std::vector<double>& celsius, const std::vector<std::size_t>& turned = {}) {
  std::string text = "time,core degC,event\n";
  for (std::size_t day = 0; day < celsius.size(); ++day) {
    const bool is_turned = std::find(turned.begin(), turned.end(), day) != turned.end();
    text += print_time({eight + hours(24 * static_cast<int>(day)), {}}) + "," + std::to_string(celsius[day]) +
            (is_turned ? ",turned\n" : ",\n");
  }
  return text;
}

}  // namespace

TEST_CASE("times of ISO 8601", "[log]") {
  CHECK(read_time("2026-11-12T08:00").shown == eight);
  CHECK_FALSE(read_time("2026-11-12T08:00").offset);
  CHECK(read_time("2026-11-12 08:00").shown == eight);
  CHECK(read_time("2026-11-12t08:00:30").shown == eight + std::chrono::seconds(30));
  CHECK(read_time("2026-11-12T08:00:30.75").shown == eight + std::chrono::seconds(30));
  CHECK(read_time("2026-11-12").shown == eight + hours(4));
  CHECK(read_time("2026-11-12T08:00Z").at() == eight);
  CHECK(read_time("2026-11-12T08:00+01:00").at() == eight - hours(1));
  CHECK(read_time("2026-11-12T08:00-0530").at() == eight + hours(5) + minutes(30));
  CHECK(read_time("2026-11-12T08:00+14").at() == eight - hours(14));
  for (const char* text :
       {"2026-11-12T08", "2026-11-12T08:0", "2026-11-12T24:00", "2026-11-12T08:60", "2026-11-12T08:00:60",
        "2026-11-12T08:00:", "2026-11-12T08:00:30.", "2026-11-12T08:00+", "2026-11-12T08:00+15:00", "2026-11-12T08:00+1",
        "2026-11-12T08:00 am", "2026-11-12T08:00ZZ", "2026-11-12X08:00", "2026-02-29T08:00", "", "2026", "8:00", "2026-11-12T+8:00"})
    CHECK_THROWS_AS(read_time(text), TextError);
  for (const char* text :
       {"2026-11-12T08:00", "2026-11-12T08:00:30", "2026-11-12T08:00Z", "2026-11-12T08:00-05:30", "2026-11-12T08:00+01:00"})
    CHECK(print_time(read_time(text)) == text);
}

TEST_CASE("a log of several thermometers, the air, and what was done", "[log]") {
  const TemperatureLog log = log_of(
      "# the north bin\ntime, core degF ,edge (°C),air degF,battery V,event\n"
      "2026-11-12T08:00,131,NA,50,3.6,\n2026-11-12T20:00,,40.5,48,3.6,turned and watered\n2026-11-13T08:00,130,nan,,3.6,watered\n");
  CHECK(log.probes == std::vector<std::string>{"core", "edge"});
  CHECK(log.notes_events);
  REQUIRE(log.rows.size() == 3);
  CHECK(log.rows[0].probes[0] == TemperaturePoint::from_celsius(55.0));
  CHECK_FALSE(log.rows[0].probes[1]);
  CHECK_FALSE(log.rows[1].probes[0]);
  CHECK(log.rows[1].probes[1] == TemperaturePoint::from_celsius(40.5));
  CHECK((log.rows[1].turned && log.rows[1].watered));
  CHECK((!log.rows[2].turned && log.rows[2].watered));
  CHECK(log.rows[0].air == TemperaturePoint::from_fahrenheit(50.0));
  CHECK_FALSE(log.rows[2].air);
}

TEST_CASE("a temperature of a heap is from -60 to 120 °C", "[log]") {
  CHECK(is_a_heap_temperature(TemperaturePoint::from_celsius(-60.0)));
  CHECK(is_a_heap_temperature(TemperaturePoint::from_celsius(120.0)));
  CHECK_FALSE(is_a_heap_temperature(TemperaturePoint::from_celsius(-60.1)));
  CHECK_FALSE(is_a_heap_temperature(TemperaturePoint::from_celsius(120.1)));
  CHECK_FALSE(is_a_heap_temperature(TemperaturePoint::from_celsius(std::nan(""))));
}

TEST_CASE("what a gardener sees: the peak, whether it heated, when it cooled", "[log]") {
  const Watched seen = seen_in(daily({20, 45, 60, 58, 41, 39, 30, 25, 22, 20, 20, 20, 20}));
  CHECK(seen.peak.temperature == TemperaturePoint::from_celsius(60.0));
  CHECK(seen.peak.time.shown == eight + hours(48));
  CHECK(seen.first_heated->shown == eight + hours(24));
  CHECK(seen.cool_since->shown == eight + hours(24 * 5));
  CHECK(seen.cooled_for_good());
  CHECK_FALSE(seen.too_hot);
  CHECK(seen_in(daily({20, 45, 39, 38, 37, 36, 35, 30, 30, 30})).cooled_for_good());
  CHECK_FALSE(seen_in(daily({20, 45, 39, 38, 37, 36, 35, 30, 30})).cooled_for_good());  // a day less than a week
  CHECK_FALSE(seen_in(daily({20, 45, 39, 45, 45})).cool_since);
  CHECK_FALSE(seen_in(daily({20, 39.9, 39.9})).first_heated);
  CHECK(seen_in(daily({20, 40.0, 39.9})).first_heated);
}

TEST_CASE("above 160 °F, and for how long", "[log]") {
  CHECK_FALSE(seen_in("time,core degF\n2026-11-12,160\n2026-11-13,160\n").too_hot);
  const auto found = seen_in("time,core degF\n2026-11-12,150\n2026-11-13,160.1\n2026-11-14,165\n2026-11-15,150\n2026-11-16,161\n").too_hot;
  REQUIRE(found);
  CHECK(found->first.shown == eight + hours(28));
  CHECK(found->length == hours(24));
}

TEST_CASE("whether turning warmed it again", "[log]") {
  const Watched seen = seen_in(daily({50, 30, 28, 45, 50, 40, 30, 25, 24, 23, 23, 22, 22, 21}, {1, 7}));
  REQUIRE(seen.reheats.size() == 2);
  CHECK(seen.reheats[0].warmed);
  CHECK(seen.reheats[0].lowest == TemperaturePoint::from_celsius(28.0));
  CHECK(seen.reheats[0].highest == TemperaturePoint::from_celsius(50.0));
  CHECK_FALSE(seen.reheats[1].warmed);
  CHECK(seen_in(daily({20, 20, 24.9, 20, 20, 20}, {1})).reheats[0].warmed == false);
  CHECK(seen_in(daily({20, 20, 20, 25, 20, 20}, {1})).reheats[0].warmed == true);
}

TEST_CASE("a log of nothing but gaps is seen as nothing", "[log]") {
  TemperatureLog log{{"core"}, false, {}};
  CHECK_FALSE(watched(log));
  log.rows.push_back({{eight, {}}, true, false, {}, {std::nullopt}});
  CHECK_FALSE(watched(log));
}

TEST_CASE("symptoms by what people call them, and the cause whose circumstances all hold", "[log][symptoms]") {
  for (const Symptom& symptom : built_in_symptoms()) {
    CHECK(find_symptom(symptom.id).id == symptom.id);
    CHECK(find_symptom(symptom.name).id == symptom.id);
    for (const std::string& name : symptom.also) CHECK(find_symptom(name).id == symptom.id);
    CHECK(symptom.causes.back().when.empty());
  }
  CHECK(built_in_symptoms().size() >= 12);
  CHECK_THROWS_AS(find_symptom("sings"), TextError);
  CHECK_THROWS_AS(find_symptom(""), TextError);
  const Symptom& cold = find_symptom("will-not-heat");
  CHECK(likely_cause(cold, {Circumstance::small}).when == Circumstances{Circumstance::small});
  CHECK(likely_cause(cold, {Circumstance::small, Circumstance::cold}).when == Circumstances{Circumstance::small, Circumstance::cold});
  CHECK(likely_cause(cold, {Circumstance::small, Circumstance::too_dry}).when == Circumstances{Circumstance::too_dry});
  CHECK(likely_cause(cold, {Circumstance::scraps}).when.empty());
}
