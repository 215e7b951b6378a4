/// Tables of one's own, and their check for slips.

#include "heapwright/materials/materials.hpp"

#include <nlohmann/json.hpp>

#include "checks.hpp"
#include "heapwright/materials/check.hpp"
#include "heapwright/materials/rows.hpp"
#include "heapwright/plan/answers.hpp"
#include "heapwright/report/json.hpp"
#include "heapwright/report/text.hpp"
#include "targets.hpp"

namespace heapwright::fuzz {
namespace {

void check_slips(const std::string& path, std::string_view input) {
  const std::vector<CheckedFeedstock> checked = check_materials_file(tables().materials, path);
  const std::string json = json_of_check(checked);
  require(nlohmann::json::accept(json), "JSON is JSON");
  check_output(json, input);
  check_output(text_of_check(checked), input);
}

/// The rows that a file adds, shown, and what each makes with leaves.
void use_rows(const std::string& path, std::string_view input) {
  const Tables own = tables_with(path);
  const Show show(ShownUnits::us);
  for (const Feedstock& row : *own.materials.feedstocks) {
    if (row_with_id(*tables().materials.feedstocks, row.id) != nullptr) continue;
    check_output(text_of_feedstock(row, own.materials, show), input);
    check_output(json_of_feedstock(row, own.materials), input);
  }
}

}  // namespace

void read_own_tables(std::string_view text) {
  const FileOf file(text);
  const bool checked = ends_well([&] { check_slips(file.path(), text); });
  const bool used = ends_well([&] { use_rows(file.path(), text); });
  if (checked || used) count_answered();
}

}  // namespace heapwright::fuzz
