#include "heapwright/lawn/jobs.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

#include "heapwright/input/problems.hpp"
#include "heapwright/report/jobs_csv.hpp"
#include "heapwright/time/date.hpp"
#include "heapwright/yard/yard.hpp"

namespace heapwright {
namespace {

const std::string offer = R"(
[topdressing]
depth = "1/4 in"
[[topdressing.offer]]
name = "bulk"
unit = "1 yd3"
price = 40
delivery = 75
delivery_per = "load"
load = { volume = "10 yd3" }
[[topdressing.fixed_cost]]
name = "spreader"
price = 95
)";

std::string zone(const std::string& name, const std::string& area, const std::string& job) {
  return "[[lawn.zone]]\nname = \"" + name + "\"\narea = \"" + area + "\"\n" + (job.empty() ? "" : "job = \"" + job + "\"\n");
}

std::string job(const std::string& name, const std::string& shares = "") {
  return "[[job]]\nname = \"" + name + "\"\n" + (shares.empty() ? "" : "shares_loads_with = [\"" + shares + "\"]\n");
}

DressedJobs dressed(const std::string& text) {
  const Yard yard = read_yard_text(text, "jobs.toml");
  return dress_jobs(*yard.lawn, yard.jobs, yard.topdressing, read_date("2026-09-01"), false, yard.tables.materials);
}

std::vector<Problem> problems_of_jobs(const std::string& text) {
  try {
    read_yard_text(text, "jobs.toml");
  } catch (const InputError& error) {
    return error.problems();
  }
  return {};
}

double yards(Volume volume) { return volume / unit::cubic_yard; }

// 5000 ft2 at 1/4 in with 5 %: 4.05 yd3; 6000 ft2: 4.86 yd3; together 8.91 yd3.
const std::string two_sites =
    job("school") + job("church") + zone("field", "5000 ft2", "school") + zone("green", "6000 ft2", "church") + offer;

}  // namespace

TEST_CASE("each job is rounded up by itself, and what is paid once is paid once", "[jobs]") {
  const DressedJobs jobs = dressed(two_sites);
  REQUIRE(jobs.drops.size() == 2);
  CHECK(jobs.drops[0].jobs == std::vector<std::string>{"school"});
  CHECK(yards(jobs.drops[0].topdressing.ordering->best->volume) == Approx(5.0));
  CHECK(yards(jobs.drops[1].topdressing.ordering->best->volume) == Approx(5.0));
  CHECK(jobs.cost.value() == Approx(2 * (5 * 40.0 + 75.0) + 95.0));
  CHECK(csv_of_jobs(jobs) ==
        "job,area_m2,depth_mm,compost_m3,order_m3,order,loads,cost,offers,hold\n"
        "school,464.515,6.35,3.09716,3.82277,\"5 cu yd of compost screened to 3/8 in or finer, 1 load\",1,275.00,bulk,no\n"
        "church,557.418,6.35,3.71659,3.82277,\"5 cu yd of compost screened to 3/8 in or finer, 1 load\",1,275.00,bulk,no\n");
}

TEST_CASE("a job's own soil test goes before the file's", "[jobs]") {
  const std::string file_test = "[soil_test]\nphosphorus = \"low\"\n";
  const auto verdicts = [&](const std::string& of_school, const std::string& of_church, const std::string& sharing = "") {
    std::vector<PhosphorusVerdict> found;
    const DressedJobs jobs = dressed(job("school") + of_school + job("church", sharing) + of_church + zone("field", "5000 ft2", "school") +
                                     zone("green", "6000 ft2", "church") + offer + file_test);
    for (const DressedDrop& drop : jobs.drops) found.push_back(drop.topdressing.advice.phosphorus);
    return found;
  };
  const std::string high = "soil_test = { phosphorus = \"very high\" }\n";
  const std::string medium = "soil_test = { phosphorus = \"medium\" }\n";
  using enum PhosphorusVerdict;
  CHECK(verdicts("", "") == std::vector{go, go});
  CHECK(verdicts("", high) == std::vector{go, hold});
  CHECK(verdicts(high, medium) == std::vector{hold, go});
  CHECK(verdicts(high, medium, "school") == std::vector{hold});
  CHECK(verdicts(medium, high, "school") == std::vector{hold});
}

TEST_CASE("the more careful ground counts for jobs that share loads", "[jobs]") {
  const auto shared = [&](const std::string& of_school, const std::string& of_file) {
    const std::string all =
        of_file.find("near_water") == std::string::npos ? offer + of_file : offer.substr(0, 15) + of_file + offer.substr(15);
    return dressed(job("school") + of_school + job("church", "school") + zone("field", "5000 ft2", "school") +
                   zone("green", "6000 ft2", "church") + all)
        .drops.front()
        .topdressing.advice;
  };
  // The church has the file's soil test, which holds, and the file's water.
  CHECK(shared("soil_test = { phosphorus = \"low\" }\n", "[soil_test]\nphosphorus = \"high\"\n").phosphorus == PhosphorusVerdict::hold);
  CHECK(shared("near_water = false\n", "near_water = true\n").near_water);
  CHECK(shared("near_water = true\n", "").near_water);
  CHECK_FALSE(shared("near_water = false\n", "").near_water);
}

TEST_CASE("jobs that share loads are one drop", "[jobs]") {
  const DressedJobs jobs =
      dressed(job("school") + job("church", "school") + zone("field", "5000 ft2", "school") + zone("green", "6000 ft2", "church") + offer);
  REQUIRE(jobs.drops.size() == 1);
  CHECK(jobs.drops[0].jobs == std::vector<std::string>{"school", "church"});
  CHECK(yards(jobs.drops[0].topdressing.ordering->best->volume) == Approx(9.0));
  CHECK(jobs.cost.value() == Approx(9 * 40.0 + 75.0 + 95.0));
}

TEST_CASE("zones and jobs that do not name each other are told", "[jobs]") {
  const std::vector<std::pair<std::string, std::string>> wrong{
      {job("school") + zone("field", "5000 ft2", "school") + zone("green", "6000 ft2", ""), "zone \"green\" names no job"},
      {job("school") + zone("field", "5000 ft2", "church") + zone("green", "6000 ft2", "school"), "names \"church\", which is no job"},
      {job("school") + job("church") + zone("field", "5000 ft2", "school"), "job \"church\" has no zone"},
      {zone("field", "5000 ft2", "school"), "names a job, and there is none"},
      {job("school", "church") + zone("field", "5000 ft2", "school"), "shares loads with \"church\", which is no other job"},
      {job("school") + job("school") + zone("field", "5000 ft2", "school"), "names two jobs"},
      {"[[job]]\nnmae = \"school\"\n" + zone("field", "5000 ft2", "school"), "is not a key of this table"}};
  for (const auto& [text, what] : wrong) {
    const std::vector<Problem> problems = problems_of_jobs(text);
    CAPTURE(text);
    CHECK(std::any_of(problems.begin(), problems.end(),
                      [&](const Problem& problem) { return problem.what.find(what) != std::string::npos; }));
  }
}

}  // namespace heapwright
