#include "heapwright/lawn/jobs.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <numeric>

#include "heapwright/input/document.hpp"

namespace heapwright {
namespace {

std::optional<std::size_t> place_of_job(const std::vector<Job>& jobs, const std::string& name) {
  const auto found = std::find_if(jobs.begin(), jobs.end(), [&](const Job& job) { return job.name == name; });
  return found == jobs.end() ? std::nullopt : std::optional(static_cast<std::size_t>(found - jobs.begin()));
}

std::string names_of(const std::vector<Job>& jobs) {
  std::vector<std::string> names;
  for (const Job& job : jobs) names.push_back(job.name);
  return fmt::format("{}", fmt::join(names, ", "));
}

Job read_job(Table& table, const std::vector<Job>& before, const Materials& materials) {
  Job job;
  table.require("name", "write name = \"school field\"");
  job.name = table.text("name").value_or("");
  if (!job.name.empty() && place_of_job(before, job.name))
    table.problem_at("name", fmt::format("\"{}\" names two jobs", job.name), "give each job a name of its own");
  for (const Value& with : table.list("shares_loads_with")) job.shares_loads_with.push_back(with.text().value_or(""));
  job.site = read_site(table);
  job.soil_test = read_soil_test(table, *materials.nutrients);
  job.near_water = table.flag("near_water");
  table.finish();
  return job;
}

/// What zones and jobs say of each other.
void check_zones_of(const Table& root, const std::vector<Job>& jobs, const Lawn& lawn) {
  for (const Zone& zone : lawn.zones) {
    if (!zone.job) {
      root.problem(fmt::format("zone \"{}\" names no job", zone.name), "write job = in its [[lawn.zone]]: the jobs are " + names_of(jobs));
    } else if (!place_of_job(jobs, *zone.job)) {
      root.problem(fmt::format("zone \"{}\" names \"{}\", which is no job", zone.name, *zone.job), "the jobs are " + names_of(jobs));
    }
  }
  for (const Job& job : jobs) {
    const bool some = std::any_of(lawn.zones.begin(), lawn.zones.end(), [&](const Zone& zone) { return zone.job == job.name; });
    if (!some)
      root.problem(fmt::format("job \"{}\" has no zone", job.name), fmt::format("write job = \"{}\" in a [[lawn.zone]]", job.name));
  }
}

/// Of each job the place of the first that it shares loads with, over others too.
std::vector<std::size_t> first_of_drop(const std::vector<Job>& jobs) {
  std::vector<std::size_t> first(jobs.size());
  std::iota(first.begin(), first.end(), 0U);
  const auto join = [&](std::size_t one, std::size_t other) {
    const std::size_t from = std::max(first[one], first[other]);
    const std::size_t to = std::min(first[one], first[other]);
    std::replace(first.begin(), first.end(), from, to);
  };
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    for (const std::string& with : jobs[i].shares_loads_with) {
      if (const auto other = place_of_job(jobs, with)) join(i, *other);
    }
  }
  return first;
}

}  // namespace

std::vector<Job> read_jobs(Table& root, const std::optional<Lawn>& lawn, const Materials& materials) {
  std::vector<Job> jobs;
  for (Table& table : root.tables("job")) {
    jobs.push_back(read_job(table, jobs, materials));
  }
  for (const Job& job : jobs) {
    for (const std::string& with : job.shares_loads_with) {
      if (!place_of_job(jobs, with) || with == job.name)
        root.problem(fmt::format("job \"{}\" shares loads with \"{}\", which is no other job", job.name, with),
                     "the jobs are " + names_of(jobs));
    }
  }
  const Lawn none;
  const Lawn& of = lawn ? *lawn : none;
  if (!jobs.empty()) check_zones_of(root, jobs, of);
  if (jobs.empty()) {
    for (const Zone& zone : of.zones) {
      if (zone.job)
        root.problem(fmt::format("zone \"{}\" names a job, and there is none", zone.name),
                     fmt::format("write [[job]] with name = \"{}\"", *zone.job));
    }
  }
  return jobs;
}

std::vector<Drop> drops_of(const Lawn& lawn, const std::vector<Job>& jobs) {
  const std::vector<std::size_t> first = first_of_drop(jobs);
  std::vector<Drop> drops;
  for (std::size_t at = 0; at < jobs.size(); ++at) {
    if (first[at] != at) continue;
    Drop drop;
    for (std::size_t i = at; i < jobs.size(); ++i) {
      if (first[i] != at) continue;
      drop.jobs.push_back(jobs[i].name);
      std::copy_if(lawn.zones.begin(), lawn.zones.end(), std::back_inserter(drop.lawn.zones),
                   [&](const Zone& zone) { return zone.job == jobs[i].name; });
    }
    drops.push_back(std::move(drop));
  }
  return drops;
}

namespace {

bool is_in(const DressedDrop& drop, const Job& job) { return std::find(drop.jobs.begin(), drop.jobs.end(), job.name) != drop.jobs.end(); }

bool holds(const std::optional<SoilTest>& test) { return test && test->phosphorus_is_high; }

/// The plan on the ground of a drop. A job without a soil test or a word of water has the file's; of several jobs that counts which is
/// more careful.
TopdressingPlan plan_on(const DressedDrop& drop, const std::vector<Job>& jobs, const TopdressingPlan& of_file) {
  TopdressingPlan plan = of_file;
  bool is_first = true;
  for (const Job& job : jobs) {
    if (!is_in(drop, job)) continue;
    const std::optional<SoilTest>& test = job.soil_test ? job.soil_test : of_file.soil_test;
    const bool near_water = job.near_water.value_or(of_file.near_water);
    if (is_first || holds(test)) plan.soil_test = test;
    plan.near_water = near_water || (!is_first && plan.near_water);
    is_first = false;
  }
  return plan;
}

}  // namespace

DressedJobs dress_jobs(const Lawn& lawn, const std::vector<Job>& jobs, const TopdressingPlan& plan, Date today, bool metric,
                       const Materials& materials) {
  DressedJobs dressed;
  TopdressingPlan of_a_drop = plan;
  of_a_drop.fixed_costs.clear();
  for (Drop& drop : drops_of(lawn, jobs)) {
    DressedDrop one{std::move(drop.jobs), {}};
    one.topdressing = topdress(drop.lawn, plan_on(one, jobs, of_a_drop), materials, today).result;
    order_for(one.topdressing, today, metric, materials);
    dressed.cost += one.topdressing.ordering->cost;
    dressed.drops.push_back(std::move(one));
  }
  dressed.fixed_costs = plan.fixed_costs;
  for (const FixedCost& fixed : dressed.fixed_costs) dressed.cost += fixed.price;
  return dressed;
}

}  // namespace heapwright
