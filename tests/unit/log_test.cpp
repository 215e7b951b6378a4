// Times and logs as thermometers and people write them, and what a gardener sees in them.

#include "heapwright/maturity/log.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "heapwright/error.hpp"
#include "heapwright/input/no_reading.hpp"
#include "heapwright/maturity/log_summary.hpp"
#include "heapwright/maturity/observations.hpp"
#include "heapwright/maturity/scale_in_doubt.hpp"
#include "heapwright/maturity/symptoms.hpp"
#include "heapwright/time/numeric_date.hpp"
#include "logs.hpp"

using namespace heapwright;
using logs::log_of;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::sys_days;

namespace {

LogSummary seen_in(const std::string& text) { return log_summary_of(log_of(text)).value(); }

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

TEST_CASE("times of day as clocks of twelve and of twenty-four hours show them", "[log]") {
  for (const char* text : {"08:00", "8:00", " 8:00 ", "08:00:00", "8:00 AM", "8:00am", "8 am", "8:00 a.m."})
    CHECK(read_clock(text) == hours(8));
  for (const char* text : {"20:15", "8:15 PM", "8:15pm"}) CHECK(read_clock(text) == hours(20) + minutes(15));
  CHECK(read_clock("12:30 am") == minutes(30));
  CHECK(read_clock("12:30 pm") == hours(12) + minutes(30));
  CHECK(read_clock("23:59:59") == hours(24) - std::chrono::seconds(1));
  for (const char* text : {"", "8", "24:00", "8:60", "20:00 pm", "0:30 am", "8:00 xm", "-8:00", "8.00", "eight", "am"})
    CHECK_THROWS_AS(read_clock(text), TextError);
}

TEST_CASE("the column of times by the names that people give it", "[log]") {
  const auto first_time = [](const std::string& names, const std::string& row) {
    return log_of(names + "\n" + row + "\n").rows.at(0).time.shown;
  };
  for (const char* name : {"time", "Time", "Datetime", "Date/Time", "date and time", "date_time", "Timestamp", "Date", "Day"})
    CHECK(first_time(std::string(name) + ",core degF", "2026-11-12 08:00,100") == eight);
  CHECK(first_time("date,core degF", "2026-11-12,100") == eight + hours(4));
  CHECK(first_time("Date,Time,core degF", "2026-11-12,8:00,100") == eight);
  CHECK(first_time("Date,Time,core degF", "2026-11-12,8:00 PM,100") == eight + hours(12));
  CHECK(first_time("core degF,Time,Day", "100,,2026-11-12") == eight + hours(4));
  CHECK(first_time("time,core degF", "2026-11-12 8:00 AM,100") == eight);
  CHECK_THROWS_WITH(log_of("date,datetime,core degF\n2026-11-12,2026-11-12,100\n"),
                    Catch::Contains("second column of times, beside \"date\""));
  CHECK_THROWS_WITH(log_of("date,time,core degF\n2026-11-12,noon,100\n"),
                    Catch::Contains("log.csv:2:12: time: \"noon\" is no time of day"));
  CHECK_THROWS_WITH(log_of("day,core degF\n1,100\n"), Catch::Contains("is no time") && Catch::Contains("2026-11-12T08:00"));
}

TEST_CASE("headings of temperatures as people write them", "[log]") {
  const auto probe_of = [](const std::string& name, const std::string& reading) {
    const TemperatureLog log = log_of("date," + name + "\n2026-11-12," + reading + "\n");
    CHECK(log.probes.size() == 1);
    return log.rows.at(0).probes.at(0).value();
  };
  for (const char* name : {"Temp (F)", "temp F", "core_temp_f", "Core Temp [°F]", "Temperature Fahrenheit", "core deg. F", "Core ºF",
                           "Core \xB0"
                           "F"})
    CHECK(probe_of(name, "131") == TemperaturePoint::from_celsius(55.0));
  for (const char* name : {"Center (°C)", "temp_c", "Mitte C", "core Celsius"})
    CHECK(probe_of(name, "55") == TemperaturePoint::from_celsius(55.0));
  CHECK(log_of("date,core_temp_f\n2026-11-12,131\n").probes == std::vector<std::string>{"core_temp"});
  for (const char* name : {"Temp", "core", "Center", "top", "Temperature (deg)", "inside"})
    CHECK_THROWS_WITH(log_of("date," + std::string(name) + "\n2026-11-12,131\n"),
                      Catch::Contains("log.csv:1:6: " + std::string(name) + ": does not say its unit"));
}

TEST_CASE("dates of three numbers are read where all of a file can be in one order only", "[log]") {
  const auto log = [](std::initializer_list<const char*> dates) {
    std::string text = "date,core degF\n";
    for (const char* date : dates) text += std::string(date) + ",100\n";
    return log_of(text);
  };
  const TemperatureLog us = log({"11/7/2026", "11/12/2026", "11/13/2026"});
  CHECK(Date(us.rows[0].time.day()) == read_date("2026-11-07"));
  CHECK(us.dates_taken->order == DayOrder::month_first);
  CHECK(us.dates_taken->written == "11/13/2026");
  CHECK(Date(log({"11/7/26", "11/30/26"}).rows[0].time.day()) == read_date("2026-11-07"));
  CHECK(log({"11/7/2026 8:00 AM", "11/13/2026 8:00 AM"}).rows[0].time.shown == std::chrono::sys_days(read_date("2026-11-07")) + hours(8));
  CHECK(Date(log({"7/11/2026", "13/11/2026"}).rows[0].time.day()) == read_date("2026-11-07"));
  CHECK(Date(log({"7.11.2026", "13.11.2026"}).rows[0].time.day()) == read_date("2026-11-07"));
  CHECK_FALSE(log({"2026-11-07", "2026-11-13"}).dates_taken);
  // Never guessed: all below 13, both above 12, or a first number that may be a year.
  CHECK_THROWS_WITH(log({"11/7/2026", "11/8/2026"}), Catch::Contains("log.csv:2:1: date: \"11/7/2026\" may be Nov 7 or Jul 11") &&
                                                         Catch::Contains("write year-month-day: 2026-11-07"));
  CHECK_THROWS_WITH(log({"11/13/2026", "14/12/2026"}), Catch::Contains("does not tell its order"));
  CHECK_THROWS_WITH(log({"26/11/07", "26/11/08"}), Catch::Contains("does not tell its order"));
  CHECK_THROWS_WITH(log({"11/13/2026", "2/30/2027"}), Catch::Contains("log.csv:3:1: date: \"2/30/2027\" is no day of the calendar"));
  CHECK_THROWS_AS(log({"11/7"}), InputError);
  // Told once, not a row.
  try {
    log({"11/7/2026", "11/8/2026", "11/9/2026"});
    FAIL("a guess");
  } catch (const InputError& error) {
    CHECK(error.problems().size() == 1);
  }
}

TEST_CASE("what is no reading is none, whatever stands for it, and what is infinite is refused", "[log]") {
  for (const char* none : {"", "-", "--", "–", "—", "n/a", "N/A", "na", "NA", "nan", "NaN", "n.a."}) {
    INFO(none);
    CHECK(is_no_reading(none));
    CHECK_FALSE(log_of("time,core degF,side degF\n2026-11-12,100," + std::string(none) + "\n").rows.at(0).probes.at(1));
  }
  for (const char* endless : {"inf", "-inf", "Inf", "infinity", "+Infinity", "∞"}) {
    INFO(endless);
    CHECK_FALSE(is_no_reading(endless));
    CHECK_THROWS_WITH(log_of("time,core degF\n2026-11-12," + std::string(endless) + "\n"),
                      Catch::Contains("is infinite, which no reading is"));
  }
  for (const char* other : {"0", "-5", "nano", "information", "in"}) {
    CHECK_FALSE(is_no_reading(other));
    CHECK_NOTHROW(refuse_infinite(other));
  }
}

TEST_CASE("a log of a spreadsheet with semicolons and decimal commas", "[log]") {
  const TemperatureLog log = log_of(
      "\xEF\xBB\xBF"
      "Date;Time;Core (°C);event\r\n2026-11-12;8:00;54,5;\r\n2026-11-13;8:00;-;turned\r\n2026-11-14;8:00;55;\r\n");
  REQUIRE(log.rows.size() == 3);
  CHECK(log.rows[0].probes[0] == TemperaturePoint::from_celsius(54.5));
  CHECK_FALSE(log.rows[1].probes[0]);
  CHECK(log.rows[1].turned);
  CHECK(log.rows[2].time.shown == eight + hours(48));
  CHECK_THROWS_WITH(log_of("date;core degC\n2026-11-12;1.054,5\n"), Catch::Contains("log.csv:2:12: "));
  CHECK_THROWS_WITH(log_of("date\tcore degC\n2026-11-12\t54\n"), Catch::Contains("parted by tabs") && Catch::Contains("save it as CSV"));
  CHECK_THROWS_WITH(log_of("date;core degC, deep;event, or none\n2026-11-12;54;\n"), Catch::Contains("by more than one sign"));
}

TEST_CASE("readings in the other scale than their column says are asked about where that is sure", "[log]") {
  const auto doubt_of = [](const std::string& scale, const std::vector<double>& readings, const std::vector<CoreReading>& by_hand = {}) {
    std::string text = "date,core " + scale + "\n";
    for (std::size_t day = 0; day < readings.size(); ++day)
      text += print_date(Date(std::chrono::sys_days(read_date("2026-11-01")) + std::chrono::days(day))) + "," +
              std::to_string(readings[day]) + "\n";
    return scale_in_doubt(log_of(text), by_hand);
  };
  CHECK(doubt_of("degC", {20, 60, 90})->written == TemperatureScale::celsius);
  CHECK_FALSE(doubt_of("degC", {20, 60, 89.9}));
  CHECK_FALSE(doubt_of("degF", {60, 110, 140, 170}));
  CHECK_THROWS_WITH(doubt_of("degC", {60, 131}), Catch::Contains("is no temperature of a pile") && Catch::Contains("end its name in degF"));
  // A pile that heats in °C, under °F: from a number that would be frozen to one that would be warm.
  CHECK(doubt_of("degF", {15, 25, 38, 52, 60, 62, 61, 60, 58})->written == TemperatureScale::fahrenheit);
  // A pile that stays cold, thaws slowly, gets warm later, was just misread once, or was followed for too short a time.
  CHECK_FALSE(doubt_of("degF", {55, 56, 58, 60, 61, 62, 61, 60, 58}));
  CHECK_FALSE(doubt_of("degF", {25, 30, 32, 32, 32, 33, 38, 45, 52}));
  CHECK_FALSE(doubt_of("degF", {15, 25, 38, 52, 60, 62, 61, 80, 100}));
  CHECK_FALSE(doubt_of("degF", {15, 55, 56, 57, 58, 57, 56, 57, 58}));
  CHECK_FALSE(doubt_of("degF", {15, 25, 38, 52, 60}));
  const CoreReading hot{read_date("2026-11-02"), HandWarmth::hot};
  const CoreReading warm{read_date("2026-11-02"), HandWarmth::warm};
  CHECK(doubt_of("degF", {50, 58}, {hot})->felt_hot);
  CHECK_FALSE(doubt_of("degF", {50, 58}, {warm}));
  CHECK_FALSE(doubt_of("degF", {50, 120}, {hot}));
  CHECK_FALSE(doubt_of("degC", {50, 58}, {hot}));
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
  CHECK(log.air_passed_over);
}

TEST_CASE("a column is the air's by a whole word of its name", "[log]") {
  const auto probes_of = [](const std::string& names) { return log_of(names + "\n2026-11-12T08:00,100,50\n").probes; };
  using Names = std::vector<std::string>;
  CHECK(probes_of("time,core degF,chair side degF") == Names{"core", "chair side"});
  CHECK(probes_of("time,core degF,Air degF") == Names{"core"});
  CHECK(probes_of("time,core degF,air-temp degF") == Names{"core"});
  CHECK(probes_of("time,core degF,score") == Names{"core"});
  CHECK(probes_of("time,core degF,attempt") == Names{"core"});
  CHECK_THROWS_WITH(log_of("time,middle degF,outside degF\n2026-11-12T08:00,100,50\n"), Catch::Contains("edge or air"));
  CHECK_THROWS_WITH(log_of("time,core degF,probe2\n2026-11-12T08:00,100,50\n"), Catch::Contains("does not say its unit"));
}

TEST_CASE("events are read as they are written, not by what stands in them", "[log]") {
  const auto row_with = [](const std::string& event) {
    return log_of("time,core degF,event\n2026-11-12T08:00,100,\"" + event + "\"\n").rows[0];
  };
  for (const char* both : {"turned and watered", "watered, turned", "turned/watered", "Turned + watered"}) {
    CHECK((row_with(both).turned && row_with(both).watered));
  }
  for (const char* none : {"not turned/watered", "unturned", "turned watered", "turned, not watered"})
    CHECK_THROWS_WITH(row_with(none), Catch::Contains("is no event"));
}

TEST_CASE("thermometers read one after the other are one round", "[log]") {
  const LogSummary seen =
      seen_in("time,core degF,side degF\n2026-11-12T08:00,140,\n2026-11-12T08:05,,80\n2026-11-13T08:00,150,\n2026-11-13T08:05,,90\n");
  CHECK(seen.readings == 2);
  CHECK(seen.latest.temperature == TemperaturePoint::from_fahrenheit(150.0));
  CHECK_FALSE(seen.cool_since);
  // An hour apart, or the same thermometer again, they are two.
  CHECK(seen_in("time,core degF,side degF\n2026-11-12T08:00,140,\n2026-11-12T09:00,,80\n").readings == 2);
  CHECK(seen_in("time,core degF,side degF\n2026-11-12T08:00,140,\n2026-11-12T08:10,141,80\n").readings == 2);
}

TEST_CASE("too hot is counted no further than from reading to reading", "[log]") {
  const std::string month_apart = "time,core degF\n2026-11-01,165\n2026-11-29,165\n";
  CHECK(seen_in(month_apart).too_hot->length == hours(0));
}

TEST_CASE("turned while hardly warm and watched for days, it is done heating", "[log]") {
  CHECK(seen_in(daily({20, 60, 55, 45, 38, 36, 35, 34, 33, 32, 31, 30}, {5})).state() == PileActivity::turned_in_vain);
  CHECK(seen_in(daily({20, 60, 55, 45, 38, 36, 45, 44, 43, 42, 41, 30}, {5})).state() == PileActivity::cooling);  // it warmed
  CHECK(seen_in(daily({20, 60, 55, 45, 38, 36, 35, 34, 33, 32}, {5})).state() == PileActivity::turned_lately);    // four days are too few
  CHECK(seen_in(daily({20, 60, 65, 50, 38, 36, 35, 34, 33, 32, 31, 30}, {2})).state() ==
        PileActivity::cooled_for_good);  // turned while hot
}

TEST_CASE("what a pile is doing, on each side of every bound", "[log]") {
  const auto state_of = [](std::vector<double> celsius) { return activity_word(seen_in(daily(std::move(celsius))).state()); };
  CHECK(state_of({20, 60, 71.2}) == "too-hot");
  CHECK(state_of({20, 60, 71.1}) == "working");  // 160 °F is 71.11 °C
  CHECK(state_of({20, 60, 44}) == "working");
  CHECK(state_of({20, 60, 43}) == "slowing");  // 110 °F is 43.3 °C
  CHECK(state_of({20, 60, 40}) == "slowing");
  CHECK(state_of({20, 41, 43}) == "working");                                    // never hotter
  CHECK(activity_word(seen_in(daily({20, 60, 43}, {1})).state()) == "working");  // turned the day before
  // Near fire, 180 °F or 82.2 °C, it counts as too hot for three days more.
  CHECK(state_of({60, 82.3, 60, 60, 60}) == "too-hot");
  CHECK(state_of({60, 82.3, 60, 60, 60, 60}) == "working");
  CHECK(state_of({60, 82.2, 60}) == "working");
  CHECK(state_of({20, 60, 39.9}) == "cooling");
  CHECK(state_of({20, 21, 22, 23, 24, 25}) == "has-not-heated");
  CHECK(state_of({20, 21, 22, 23, 24}) == "too-early");
  CHECK(activity_word(seen_in(daily({60, 39, 38, 37, 36, 35}, {1})).state()) == "turned-lately");
  CHECK(activity_word(seen_in(daily({60, 39, 38, 37, 36, 35, 34}, {1})).state()) == "turned-in-vain");  // five days after
}

TEST_CASE("a pile that is still warming is not called cold", "[log]") {
  const auto state_of = [](std::vector<double> celsius, std::vector<std::size_t> turned = {}) {
    return activity_word(seen_in(daily(std::move(celsius), turned)).state());
  };
  CHECK(state_of({15, 20, 24, 28, 31, 34, 37}) == "warming");
  CHECK(state_of({15, 20, 24, 28, 31, 34, 37, 38, 38, 38, 38}) == "has-not-heated");
  CHECK(state_of({15, 20, 24, 28, 31, 34, 31.9}) == "has-not-heated");
  CHECK(state_of({20, 21.2, 22.4, 23.6, 25.1}) == "warming");  // 5 degrees in four days
  CHECK(state_of({20, 21.2, 22.4, 23.6, 24.9}) == "too-early");
  // Hot again after weeks: first warming, then at work, and no longer slowing from the heat of long ago.
  std::vector<double> again{20, 60, 60, 45, 38, 30, 25, 22, 21, 21, 21, 21, 21, 21, 21, 24, 28, 33};
  CHECK(state_of(again) == "warming");
  again.push_back(41);
  CHECK(state_of(again) == "working");
  // The sun on a thermometer near the edge is no warming from day to day.
  std::string sunny = "time,core degC\n";
  for (int day = 10; day < 20; ++day)
    sunny += "2026-11-" + std::to_string(day) + "T06:00,12\n2026-11-" + std::to_string(day) + "T15:00,19\n";
  CHECK(seen_in(sunny).state() == PileActivity::has_not_heated);
}

TEST_CASE("each spell of heat is told by itself", "[log]") {
  const LogSummary seen = seen_in(daily({20, 60, 62, 58, 45, 38, 35, 50, 52, 41, 39, 38}, {6}));
  REQUIRE(seen.hot_spells.size() == 2);
  CHECK(seen.hot_spells[0].from.shown == eight + hours(24));
  CHECK(seen.hot_spells[0].to.shown == eight + hours(24 * 4));
  CHECK(seen.hot_spells[0].hottest.temperature == TemperaturePoint::from_celsius(62.0));
  CHECK(seen.hot_spells[1].from.shown == eight + hours(24 * 7));
  CHECK(seen.hot_spells[1].to.shown == eight + hours(24 * 9));
  CHECK(seen.cool_since->shown == eight + hours(24 * 10));
  CHECK(seen_in(daily({20, 39.9})).hot_spells.empty());
}

TEST_CASE("a reading that stands alone is set aside, one that a pile can have had is not", "[log]") {
  const LogSummary high = seen_in(daily({16, 17, 16, 74, 17, 16, 17, 16, 17}));
  REQUIRE(high.set_aside.size() == 1);
  CHECK(high.set_aside.front().temperature == TemperaturePoint::from_celsius(74.0));
  CHECK(high.peak.temperature == TemperaturePoint::from_celsius(17.0));
  CHECK_FALSE(high.first_heated);
  CHECK_FALSE(high.too_hot);
  CHECK(high.readings == 9);
  CHECK(high.longest_gap == hours(24));
  CHECK(high.state() == PileActivity::has_not_heated);
  const LogSummary low = seen_in(daily({60, 61, 15, 60, 60}));
  CHECK(low.set_aside.size() == 1);
  CHECK(low.hot_spells.size() == 1);
  CHECK(seen_in(daily({60, 61, 41.1, 60.9})).set_aside.empty());                                      // by 19.9 degrees
  CHECK(seen_in(daily({60, 60, 40, 49.9, 60})).set_aside.empty());                                    // it rose slowly after
  CHECK(seen_in(daily({60, 61, 30, 60, 60}, {2})).set_aside.empty());                                 // it was turned
  CHECK(seen_in("time,core degC\n2026-11-01,15\n2026-11-04,60\n2026-11-07,15\n").set_aside.empty());  // in three days it may
  // Near fire it counts, however alone it stands.
  CHECK(seen_in(daily({20, 21, 83, 21})).state() == PileActivity::is_too_hot);
}

TEST_CASE("a last reading that fell at once is measured again", "[log]") {
  const auto state_of = [](std::vector<double> celsius, std::vector<std::size_t> turned = {}) {
    return activity_word(seen_in(daily(std::move(celsius), turned)).state());
  };
  CHECK(state_of({60, 61, 15}) == "measure-again");
  CHECK(state_of({60, 61, 35.9}) == "measure-again");
  CHECK(state_of({60, 61, 36.1}) == "cooling");
  CHECK(state_of({60, 61, 15}, {1}) == "turned-lately");
  CHECK(state_of({60, 61, 15, 15}) == "cooling");
}

TEST_CASE("a temperature of a pile is from -60 to 120 °C", "[log]") {
  CHECK(is_a_pile_temperature(TemperaturePoint::from_celsius(-60.0)));
  CHECK(is_a_pile_temperature(TemperaturePoint::from_celsius(120.0)));
  CHECK_FALSE(is_a_pile_temperature(TemperaturePoint::from_celsius(-60.1)));
  CHECK_FALSE(is_a_pile_temperature(TemperaturePoint::from_celsius(120.1)));
  CHECK_FALSE(is_a_pile_temperature(TemperaturePoint::from_celsius(std::nan(""))));
}

TEST_CASE("what a gardener sees: the peak, whether it heated, when it cooled", "[log]") {
  const LogSummary seen = seen_in(daily({20, 45, 60, 58, 41, 39, 30, 25, 22, 20, 20, 20, 20}));
  CHECK(seen.peak.temperature == TemperaturePoint::from_celsius(60.0));
  CHECK(seen.peak.time.shown == eight + hours(48));
  CHECK(seen.first_heated->shown == eight + hours(24));
  CHECK(seen.cool_since->shown == eight + hours(24 * 5));
  CHECK(seen.state() == PileActivity::cooled_for_good);
  CHECK_FALSE(seen.too_hot);
  CHECK(seen_in(daily({20, 45, 39, 38, 37, 36, 35, 30, 30, 30})).state() == PileActivity::cooled_for_good);
  CHECK(seen_in(daily({20, 45, 39, 38, 37, 36, 35, 30, 30})).state() == PileActivity::cooling);  // a day less than a week
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
  const LogSummary seen = seen_in(daily({50, 30, 28, 45, 50, 40, 30, 25, 24, 23, 23, 22, 22, 21}, {1, 7}));
  REQUIRE(seen.reheats.size() == 2);
  CHECK(seen.reheats[0].warmed);
  CHECK(seen.reheats[0].lowest == TemperaturePoint::from_celsius(28.0));
  CHECK(seen.reheats[0].highest == TemperaturePoint::from_celsius(50.0));
  CHECK_FALSE(seen.reheats[1].warmed);
  CHECK(seen_in(daily({20, 20, 24.9, 20, 20, 20}, {1})).reheats[0].warmed == false);
  CHECK(seen_in(daily({20, 20, 20, 25, 20, 20}, {1})).reheats[0].warmed == true);
}

TEST_CASE("a log of nothing but gaps is seen as nothing", "[log]") {
  TemperatureLog log{{"core"}, false, false, {}};
  CHECK_FALSE(log_summary_of(log));
  log.rows.push_back({{eight, {}}, true, false, {std::nullopt}});
  CHECK_FALSE(log_summary_of(log));
}

namespace {
const std::vector<Symptom>& symptoms() {
  static const std::vector<Symptom> table = built_in_symptoms();
  return table;
}
}  // namespace

TEST_CASE("symptoms by what people call them, and the cause whose circumstances all hold", "[log][symptoms]") {
  for (const Symptom& symptom : symptoms()) {
    CHECK(find_symptom(symptoms(), symptom.id).id == symptom.id);
    CHECK(find_symptom(symptoms(), symptom.name).id == symptom.id);
    for (const std::string& name : symptom.also) CHECK(find_symptom(symptoms(), name).id == symptom.id);
    CHECK(symptom.causes.back().when.empty());
  }
  CHECK(symptoms().size() >= 12);
  CHECK_THROWS_AS(find_symptom(symptoms(), "sings"), TextError);
  CHECK_THROWS_AS(find_symptom(symptoms(), ""), TextError);
  const Symptom& cold = find_symptom(symptoms(), "will-not-heat");
  using Whens = std::vector<Circumstances>;
  const auto whens = [&](const Circumstances& circumstances) {
    Whens found;
    for (const Cause* cause : likely_causes(cold, circumstances)) found.push_back(cause->when);
    return found;
  };
  constexpr auto small = Circumstance::small;
  CHECK(whens({small}) == Whens{{small}});
  CHECK(whens({small, Circumstance::cold}) == Whens{{Circumstance::cold, small}});
  CHECK(whens({small, Circumstance::too_dry}) == Whens{{Circumstance::too_dry}, {small}});
  CHECK(whens({Circumstance::scraps}) == Whens{{}});
}

TEST_CASE("each sign of a sentence, where each is clear", "[log][symptoms]") {
  using Ids = std::vector<std::string>;
  const auto [said, signs] = GENERATE(table<std::string, Ids>({
      {"smells like eggs and there are flies", {"rotten-smell", "flies"}},
      {"flies, rats", {"flies", "rats"}},
      {"it smells fine but it won't heat", {"will-not-heat"}},
      {"the rats are gone but there are flies", {"flies"}},
      {"it smokes and there are flies", {"smoke"}},
      {"half rotted and cold", {"half-rotted-and-cold"}},
  }));
  CAPTURE(said);
  CHECK(read_all_noticed(symptoms(), said) == signs);
  CHECK_THROWS_AS(read_all_noticed(symptoms(), "it smells and there are flies"), TextError);  // of what?
  CHECK_THROWS_AS(read_all_noticed(symptoms(), "the rats are gone"), TextError);
  CHECK_THROWS_AS(read_all_noticed(symptoms(), "no flies any more"), TextError);
}

TEST_CASE("what is called by a name of a symptom is that, and smoke is heard whatever the words", "[log][symptoms]") {
  for (const Symptom& symptom : symptoms()) {
    for (const std::string& name : symptom.also) CHECK(read_noticed(symptoms(), name) == symptom.id);
  }
  for (const char* smoke : {"smoke", "it is smoking", "smells-burnt", "burning smell", "smouldering", "it smolders", "on fire", "flames",
                            "embers", "glowing inside", "charred leaves", "scorched", "no flames but it smokes"})
    CHECK(is_smoke({read_noticed(symptoms(), smoke), std::nullopt}));
  CHECK_THROWS_AS(read_noticed(symptoms(), "smells since November"), TextError);
  for (const char* other : {"fire ants", "rotten smell"}) CHECK_FALSE(is_smoke({read_noticed(symptoms(), other), std::nullopt}));
  CHECK(symptom_called(symptoms(), "smells of ammonia") != nullptr);
  CHECK(symptom_called(symptoms(), "Its weeds") != nullptr);
}

TEST_CASE("what a hand tells of a pile", "[log]") {
  const auto state = [](HandWarmth core, bool has_heated, bool long_enough) {
    return FeltByHand{read_date("2027-06-06"), core, has_heated, long_enough}.state();
  };
  CHECK(state(HandWarmth::hot, true, false) == FeltActivity::working);
  CHECK(state(HandWarmth::warm, true, true) == FeltActivity::slowing);
  CHECK(state(HandWarmth::cold, false, false) == FeltActivity::too_early);
  CHECK(state(HandWarmth::cold, false, true) == FeltActivity::has_not_heated);
  CHECK(state(HandWarmth::cold, true, true) == FeltActivity::cooled);
}

TEST_CASE("what came of a turning", "[log]") {
  const auto outcome = [](std::vector<double> celsius) {
    const LogSummary seen = seen_in(daily(std::move(celsius), {1}));
    return outcome_of(seen.reheats.back(), seen.last);
  };
  CHECK(outcome({50, 45}) == ReheatOutcome::not_measured_since);
  CHECK(outcome({50, 45, 50}) == ReheatOutcome::warmed);
  CHECK(outcome({50, 45, 49}) == ReheatOutcome::stayed_hot);
  CHECK(outcome({50, 45, 44, 39}) == ReheatOutcome::went_on_cooling);
  CHECK(outcome({50, 35, 34}) == ReheatOutcome::not_yet);
  CHECK(outcome({50, 35, 34, 34, 34, 34, 34, 34, 34}) == ReheatOutcome::did_not_warm);
  // Hot for days after the turning, and only then cool.
  CHECK(outcome({60, 60, 60, 61, 59, 38, 35, 32, 30}) == ReheatOutcome::stayed_hot_for_days);
  CHECK(outcome({60, 60, 60, 61, 38, 35, 32, 30, 30}) == ReheatOutcome::stayed_hot_for_days);
  CHECK(outcome({60, 60, 60, 38, 35, 32, 30, 30, 30}) == ReheatOutcome::went_on_cooling);
  // It dipped below, so it did not stay hot.
  CHECK(outcome({60, 45, 44, 39, 43}) != ReheatOutcome::stayed_hot);
  // It warmed, though by little.
  CHECK(outcome({60, 37, 39, 41, 39, 37, 36, 36, 36}) == ReheatOutcome::hardly_warmed);
  CHECK(outcome({60, 37, 38.9, 38, 37, 36, 36, 36, 36}) == ReheatOutcome::did_not_warm);
}

TEST_CASE("a turning is judged by what came before the next one", "[log]") {
  const LogSummary seen = seen_in(daily({60, 45, 39, 38, 55, 58, 58}, {1, 3}));
  REQUIRE(seen.reheats.size() == 2);
  CHECK(outcome_of(seen.reheats[0], seen.last) == ReheatOutcome::did_not_warm);
  CHECK(outcome_of(seen.reheats[1], seen.last) == ReheatOutcome::warmed);
  const LogSummary twice = seen_in("time,core degC,event\n2026-11-01T08:00,60,turned\n2026-11-01T18:00,,turned\n2026-11-02T08:00,62,\n");
  REQUIRE(twice.reheats.size() == 2);
  CHECK(outcome_of(twice.reheats[0], twice.last) == ReheatOutcome::not_measured);
  // Turned while warm, and not measured for weeks: nobody knows whether turning warmed it.
  const LogSummary unseen = seen_in("time,core degC,event\n2026-11-01,60,\n2026-11-02,39,turned\n2026-11-22,20,\n");
  CHECK(outcome_of(unseen.reheats.front(), unseen.last) == ReheatOutcome::not_measured);
  CHECK(unseen.state() == PileActivity::cooled_for_good);
  // Turned in vain, then once more of late, and not measured on the day after.
  CHECK(seen_in(daily({20, 60, 55, 45, 38, 36, 35, 34, 33, 32}, {5}) + "2026-11-22T09:00,,turned\n2026-11-24T08:00,30,\n").state() ==
        PileActivity::turned_lately);
}
