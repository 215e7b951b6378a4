#pragma once
/// Several sites in one file: each takes its own zones, and its compost is dropped there.

#include <optional>
#include <string>
#include <vector>

#include "heapwright/lawn/lawn.hpp"
#include "heapwright/lawn/site.hpp"
#include "heapwright/lawn/topdressing.hpp"

namespace heapwright {

/// One site of a file.
struct Job {
  std::string name;
  std::vector<std::string> shares_loads_with;  ///< jobs that one crew hauls to from one yard
  std::optional<Site> site{};
  std::optional<SoilTest> soil_test{};  ///< of its own ground, in place of the file's
  std::optional<bool> near_water{};     ///< likewise
};

/// Reads [[job]] with [job.site] and [job.soil_test]. With jobs, every zone names one of them and every job has a zone; else that is a
/// problem of the file.
std::vector<Job> read_jobs(Table& root, const std::optional<Lawn>& lawn, const Materials& materials);

/// Jobs that take their compost together, and their zones. Loads do not split between drops.
struct Drop {
  std::vector<std::string> jobs;
  Lawn lawn;
};

/// In the order of the jobs: those that share loads, over others too, are one drop.
std::vector<Drop> drops_of(const Lawn& lawn, const std::vector<Job>& jobs);

/// A drop with its topdressing and its order; what is paid once is left to the sum.
struct DressedDrop {
  std::vector<std::string> jobs;
  Topdressing topdressing;
};
struct DressedJobs {
  std::vector<DressedDrop> drops;
  std::vector<FixedCost> fixed_costs;
  Cost cost;  ///< of the orders and of what is paid once
};

/// Each drop by itself, rounded up to the supplier's step by itself.
DressedJobs dress_jobs(const Lawn& lawn, const std::vector<Job>& jobs, const TopdressingPlan& plan, Date today, bool metric,
                       const Materials& materials);

}  // namespace heapwright
