// The bounds of the time and temperature rules, each side of each.
// 40 CFR 257 Appendix II (and what mirrors it): at or above 55 °C, 3 days in-vessel or static aerated, 15 days in a windrow with at least 5
// turnings; significant reduction at or above 40 °C for 5 days, exceeding 55 °C for 4 hours of them.
// 7 CFR 205.203(c)(2): 131 to 170 °F, 3 days, or 15 days and at least 5 turnings; C:N 25:1 to 40:1 at the start.

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>
#include <vector>

#include "../unit/logs.hpp"
#include "heapwright/maturity/criteria.hpp"

using namespace heapwright;
using logs::log_of;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

namespace {

const TimeTemperatureRule& rule(const std::string& id) {
  static const Criteria criteria = built_in_criteria();
  for (const TimeTemperatureRule& rule : criteria.rules) {
    if (rule.id == id) return rule;
  }
  throw std::runtime_error("no rule " + id);
}

const std::chrono::sys_seconds start = std::chrono::sys_days(std::chrono::year(2026) / 11 / 7);

/// A log of one thermometer from `start`, every `step`, to `last` and no further; turned at some times.
std::string steady(const std::string& scale, const std::string& reading, minutes last, minutes step, std::vector<minutes> turned = {}) {
  std::string text = "time,core " + scale + ",event\n";
  for (minutes at(0);; at = std::min(last, at + step)) {
    const bool is_turned =
        std::any_of(turned.begin(), turned.end(), [&](minutes when) { return when >= at && when < at + step && at < last; });
    text += print_time({start + at, {}}) + "," + reading + "," + (is_turned ? "turned" : "") + "\n";
    if (at == last) return text;
  }
}

std::vector<minutes> turnings(int count) {
  std::vector<minutes> times;
  for (int i = 1; i <= count; ++i) times.push_back(hours(48 * i));
  return times;
}

std::optional<bool> met(const std::string& id, const std::string& log, seconds gap = usual_gap) {
  return judge(rule(id), log_of(log), gap).met;
}

constexpr minutes hour = hours(1);
constexpr minutes three_days = hours(72);
constexpr minutes five_days = hours(120);
constexpr minutes fifteen_days = hours(360);

}  // namespace

TEST_CASE("the lower bound of a rule is met at the bound, in either scale", "[reference][log]") {
  for (const char* id : {"further-reduction-in-vessel", "organic-in-vessel"}) {
    INFO(id);
    CHECK(met(id, steady("degC", "55", three_days, hour)) == true);
    CHECK(met(id, steady("degC", "55.0", three_days, hour)) == true);
    CHECK(met(id, steady("degC", "54.9", three_days, hour)) == false);
    CHECK(met(id, steady("degF", "131", three_days, hour)) == true);
    CHECK(met(id, steady("degF", "130.9", three_days, hour)) == false);
  }
}

TEST_CASE("the rules of organic farms have an upper bound, the others none", "[reference][log]") {
  CHECK(met("organic-in-vessel", steady("degF", "170", three_days, hour)) == true);
  CHECK(met("organic-in-vessel", steady("degF", "170.1", three_days, hour)) == false);
  CHECK(met("organic-in-vessel", steady("degC", "76.6", three_days, hour)) == true);
  CHECK(met("organic-in-vessel", steady("degC", "76.7", three_days, hour)) == false);
  CHECK(met("organic-windrow", steady("degF", "170", fifteen_days, hour, turnings(5))) == true);
  CHECK(met("organic-windrow", steady("degF", "170.1", fifteen_days, hour, turnings(5))) == false);
  CHECK(met("further-reduction-in-vessel", steady("degF", "175", three_days, hour)) == true);
  CHECK(met("further-reduction-windrow", steady("degF", "175", fifteen_days, hour, turnings(5))) == true);
}

TEST_CASE("a rule's time is met at the minute", "[reference][log]") {
  for (const char* id : {"further-reduction-in-vessel", "organic-in-vessel"}) {
    CHECK(met(id, steady("degC", "60", three_days, hour)) == true);
    CHECK(met(id, steady("degC", "60", three_days - minutes(1), hour)) == false);
  }
  for (const char* id : {"further-reduction-windrow", "organic-windrow"}) {
    CHECK(met(id, steady("degC", "60", fifteen_days, hour, turnings(5))) == true);
    CHECK(met(id, steady("degC", "60", fifteen_days - minutes(1), hour, turnings(5))) == false);
  }
}

TEST_CASE("five turnings are enough, four are not, and a log that notes none tells nothing", "[reference][log]") {
  for (const char* id : {"further-reduction-windrow", "organic-windrow"}) {
    CHECK(met(id, steady("degC", "60", fifteen_days, hour, turnings(5))) == true);
    const RuleResult four = judge(rule(id), log_of(steady("degC", "60", fifteen_days, hour, turnings(4))), usual_gap);
    CHECK(four.met == false);
    CHECK(four.turnings == 4);
    CHECK(four.gap == RuleGap::too_few_turnings);
    CHECK_FALSE(met(id, "time,core degC\n2026-11-07T00:00,60\n2026-11-08T00:00,60\n2026-11-09T00:00,60\n").value());
  }
  std::string unnoted = "time,core degC\n";
  for (int day = 0; day <= 15; ++day) unnoted += print_time({start + hours(24 * day), {}}) + ",60\n";
  const RuleResult answer = judge(rule("further-reduction-windrow"), log_of(unnoted), usual_gap);
  CHECK_FALSE(answer.met.has_value());
  CHECK(answer.gap == RuleGap::turnings_not_noted);
  CHECK(met("further-reduction-in-vessel", unnoted) == true);
}

TEST_CASE("turnings count within the stretch only", "[reference][log]") {
  // The heat ends with the fifteenth day; the fifth turning comes an hour after.
  std::string text = steady("degC", "60", fifteen_days, hour, turnings(4));
  text += print_time({start + fifteen_days + hour, {}}) + ",40,turned\n";
  const RuleResult answer = judge(rule("further-reduction-windrow"), log_of(text), usual_gap);
  CHECK(answer.turnings == 4);
  CHECK(answer.met == false);
}

TEST_CASE("the four hours of the lesser rule exceed 55 °C, its five days meet 40 °C", "[reference][log]") {
  const auto five_days_with = [](const std::string& usual, const std::string& high, int from_hour, int to_hour, minutes last = five_days) {
    std::string text = "time,core degC\n";
    for (minutes at(0); at <= last; at += hour) {
      const bool in = at >= hours(from_hour) && at <= hours(to_hour);
      text += print_time({start + at, {}}) + "," + (in ? high : usual) + "\n";
    }
    if (last % hour != minutes(0)) text += print_time({start + last, {}}) + "," + usual + "\n";
    return text;
  };
  const auto lesser = [](const std::string& text) { return judge(rule("significant-reduction"), log_of(text), usual_gap); };
  CHECK(lesser(five_days_with("40", "55.1", 50, 54)).met == true);
  CHECK(lesser(five_days_with("40", "55", 50, 54)).gap == RuleGap::no_burst);
  CHECK(lesser(five_days_with("40", "55.1", 50, 53)).gap == RuleGap::no_burst);
  CHECK(lesser(five_days_with("39.9", "55.1", 50, 54)).gap == RuleGap::too_short);
  CHECK(lesser(five_days_with("40", "55.1", 50, 54, five_days - minutes(1))).gap == RuleGap::too_short);
  CHECK(lesser(five_days_with("40", "55.1", 0, 4)).met == true);
  CHECK(lesser(five_days_with("40", "55.1", 116, 120)).met == true);
}

TEST_CASE("one reading a day shows the five days but not the four hours", "[reference][log]") {
  std::string text = "time,core degC\n";
  for (int day = 0; day <= 5; ++day) text += print_time({start + hours(24 * day), {}}) + ",60\n";
  CHECK(judge(rule("significant-reduction"), log_of(text), usual_gap).gap == RuleGap::burst_not_shown);
  CHECK_FALSE(met("significant-reduction", text));
  CHECK(met("further-reduction-in-vessel", text) == true);
  std::string every_four_hours = "time,core degC\n";
  for (int hour_of_log = 0; hour_of_log <= 120; hour_of_log += 4)
    every_four_hours += print_time({start + hours(hour_of_log), {}}) + ",60\n";
  CHECK(met("significant-reduction", every_four_hours) == true);
}

TEST_CASE("a gap of 26 hours is bridged, one of a minute more is not", "[reference][log]") {
  const auto with_gap = [](minutes gap) {
    return "time,core degC\n" + print_time({start, {}}) + ",60\n" + print_time({start + hours(47), {}}) + ",60\n" +
           print_time({start + hours(47) + gap, {}}) + ",60\n" + print_time({start + hours(47) + gap + hours(23), {}}) + ",60\n";
  };
  std::string bridged = "time,core degC\n";
  for (minutes at : {hours(0), hours(24), hours(50), hours(72)}) bridged += print_time({start + at, {}}) + ",60\n";
  CHECK(met("further-reduction-in-vessel", bridged) == true);
  std::string broken = "time,core degC\n";
  for (minutes at : {minutes(0), minutes(hours(24)), minutes(hours(50)) + minutes(1), minutes(hours(72))})
    broken += print_time({start + at, {}}) + ",60\n";
  const RuleResult answer = judge(rule("further-reduction-in-vessel"), log_of(broken), usual_gap);
  CHECK(answer.met == false);
  CHECK(answer.end == StretchEnd::no_reading);
  CHECK(answer.stretch->length() == hours(24));
  CHECK(answer.total == hours(24) + hours(22) - minutes(1));
  CHECK(met("further-reduction-in-vessel", broken, usual_gap + minutes(1)) == true);
  CHECK(met("further-reduction-in-vessel", with_gap(hours(40)), hours(40)) == false);  // the first gap there is 47 hours
  CHECK(met("further-reduction-in-vessel", with_gap(hours(40)), hours(47)) == true);
}

TEST_CASE("the coldest thermometer decides", "[reference][log]") {
  std::string text = "time,core degC,edge degF\n";
  for (int at = 0; at <= 72; ++at) text += print_time({start + hours(at), {}}) + ",65," + (at == 40 ? "130.9" : "131") + "\n";
  const RuleResult answer = judge(rule("further-reduction-in-vessel"), log_of(text), usual_gap);
  CHECK(answer.met == false);
  CHECK(answer.stretch->length() == hours(39));
  CHECK(answer.total == hours(39 + 31));
  CHECK(answer.end == StretchEnd::too_cold);
  CHECK(answer.ended_by == 1);
}

TEST_CASE("a thermometer that drops out is bridged as long as a gap, and no longer", "[reference][log]") {
  const auto with_hole = [](int from, int to) {
    std::string text = "time,core degC,edge degC\n";
    for (int at = 0; at <= 72; ++at) text += print_time({start + hours(at), {}}) + ",65," + (at > from && at < to ? "" : "60") + "\n";
    return text;
  };
  CHECK(met("further-reduction-in-vessel", with_hole(20, 46)) == true);
  CHECK(met("further-reduction-in-vessel", with_hole(20, 47)) == false);
  const RuleResult died = judge(rule("further-reduction-in-vessel"), log_of(with_hole(20, 100)), usual_gap);
  CHECK(died.met == false);
  CHECK(died.stretch->length() == hours(20));
  CHECK(died.end == StretchEnd::no_reading);
  CHECK(died.ended_by == 1);
  // The core read once a day, the edge dead since the second day: it is the edge that ends it.
  std::string once_a_day = "time,core degC,edge degC\n";
  for (int at = 0; at <= 10; ++at) once_a_day += print_time({start + hours(24 * at), {}}) + ",65," + (at > 1 ? "" : "60") + "\n";
  const RuleResult edge_died = judge(rule("further-reduction-in-vessel"), log_of(once_a_day), usual_gap);
  CHECK(edge_died.end == StretchEnd::no_reading);
  CHECK(edge_died.ended_by == 1);
}

TEST_CASE("hot readings too far apart, or too hot, are not called never warm", "[reference][log]") {
  std::string far_apart = "time,core degC\n";
  for (int at = 0; at <= 10; ++at) far_apart += print_time({start + hours(72 * at), {}}) + ",60\n";
  const RuleResult apart = judge(rule("further-reduction-in-vessel"), log_of(far_apart), usual_gap);
  CHECK_FALSE(apart.met);
  CHECK(apart.gap == RuleGap::too_far_apart);
  const RuleResult hot = judge(rule("organic-in-vessel"), log_of(steady("degF", "175", hours(80), hour)), usual_gap);
  CHECK(hot.met == false);
  CHECK(hot.gap == RuleGap::too_hot);
}

TEST_CASE("clocks put back or forward do not lengthen a stretch", "[reference][log]") {
  // 1 November 2026, 2 o'clock: from UTC-4 to UTC-5. The clock shows 71 hours, the pile lived 72.
  const std::string back =
      "time,core degC\n2026-10-30T00:00-04:00,60\n2026-10-31T00:00-04:00,60\n2026-11-01T00:00-04:00,60\n"
      "2026-11-01T23:00-05:00,60\n";
  CHECK(met("further-reduction-in-vessel", back) == true);
  // 14 March 2027: the clock shows 72 hours, the pile lived 71.
  const std::string forward =
      "time,core degC\n2027-03-12T00:00-05:00,60\n2027-03-13T00:00-05:00,60\n2027-03-14T00:00-05:00,60\n"
      "2027-03-15T00:00-04:00,60\n";
  CHECK(met("further-reduction-in-vessel", forward) == false);
}

TEST_CASE("offsets may be mixed: they are moments", "[reference][log]") {
  const std::string mixed =
      "time,core degC\n2026-11-07T00:00Z,60\n2026-11-08T05:30+05:30,60\n2026-11-08T19:00-05:00,60\n2026-11-10T00:00+00:00,60\n";
  const RuleResult answer = judge(rule("further-reduction-in-vessel"), log_of(mixed), usual_gap);
  CHECK(answer.met == true);
  CHECK(answer.stretch->length() == hours(72));
}

TEST_CASE("the best stretch is told, even where a longer one meets less", "[reference][log]") {
  std::string text = steady("degC", "60", fifteen_days, hour, turnings(5));
  text += print_time({start + fifteen_days + hour, {}}) + ",40,\n";
  const auto again = fifteen_days + 2 * hour;
  for (minutes at(0); at <= hours(400); at += hour) text += print_time({start + again + at, {}}) + ",60,\n";
  const RuleResult answer = judge(rule("further-reduction-windrow"), log_of(text), usual_gap);
  CHECK(answer.met == true);
  CHECK(answer.stretch->length() == fifteen_days);
  CHECK(answer.longest == hours(400));
  CHECK(answer.total == fifteen_days + hours(400));
}

TEST_CASE("a single warm reading is no stretch", "[reference][log]") {
  const RuleResult answer = judge(rule("further-reduction-in-vessel"), log_of("time,core degC\n2026-11-07,60\n2026-11-08,50\n"), usual_gap);
  CHECK(answer.met == false);
  CHECK(answer.gap == RuleGap::never_warm);
}

TEST_CASE("a missed day that broke a stretch is told with what bridges it", "[reference][log]") {
  const auto days_of = [](std::initializer_list<int> days) {
    std::string text = "time,core degC\n";
    for (const int day : days) text += print_time({start + hours(24 * day), {}}) + ",60\n";
    return log_of(text);
  };
  const RuleResult broken = judge(rule("further-reduction-in-vessel"), days_of({0, 1, 2, 4, 5}), usual_gap);
  CHECK(broken.met == false);
  REQUIRE(broken.over_a_missed_day);
  CHECK(broken.over_a_missed_day->length() == hours(120));
  CHECK(judge(rule("further-reduction-in-vessel"), days_of({0, 1, 2, 4, 5}), missed_day).met == true);
  CHECK(judge(rule("further-reduction-in-vessel"), days_of({0, 2, 3, 4}), usual_gap).over_a_missed_day->length() == hours(96));
  // Two missed days are more than that bridges; every other day is each time one missed day.
  CHECK_FALSE(judge(rule("further-reduction-in-vessel"), days_of({0, 1, 2, 5}), usual_gap).over_a_missed_day);
  CHECK(judge(rule("further-reduction-in-vessel"), days_of({0, 2, 4}), usual_gap).over_a_missed_day->length() == hours(96));
  // Cold after the missed day, or an unbroken stretch: nothing to bridge.
  CHECK_FALSE(judge(rule("further-reduction-in-vessel"), log_of("time,core degC\n2026-11-01,60\n2026-11-02,60\n2026-11-04,40\n"), usual_gap)
                  .over_a_missed_day);
  CHECK_FALSE(judge(rule("further-reduction-in-vessel"), days_of({0, 1, 2, 3}), usual_gap).over_a_missed_day);
  CHECK_FALSE(judge(rule("further-reduction-in-vessel"), days_of({0, 1, 2, 4, 5}), missed_day).over_a_missed_day);
}

TEST_CASE("who does not ask for days in a row, and how that is known", "[reference][log]") {
  const CountedOtherwise other = built_in_criteria().not_in_a_row;
  CHECK(other.whose.source == "cfr-112-54");
  CHECK(other.whose.evidence == Evidence::secondary);
  CHECK(other.text.find("need not be consecutive") != std::string::npos);
}

TEST_CASE("a starting C:N meets its bounds as they are given, to the whole number", "[reference][log]") {
  const StartingRatioRule rule = built_in_criteria().starting_carbon_to_nitrogen;
  for (const double met : {25.0, 24.5, 24.9999, 25.4, 30.0, 39.6, 40.0, 40.0001, 40.49}) CHECK(meets(rule, carbon_to_nitrogen(met)));
  for (const double not_met : {24.49, 24.0, 10.0, 40.5, 41.0, 400.0}) CHECK_FALSE(meets(rule, carbon_to_nitrogen(not_met)));
  CHECK_FALSE(meets(rule, carbon_to_nitrogen(std::nan(""))));
}

TEST_CASE("the starting C:N of organic farms", "[reference][log]") {
  CHECK(built_in_criteria().starting_carbon_to_nitrogen.low.value() == 25.0);
  CHECK(built_in_criteria().starting_carbon_to_nitrogen.high.value() == 40.0);
}
