#pragma once
/// What holds of every answer, whatever was typed. Where it does not, the process ends, which a fuzzer takes for a finding.

#include <cmath>
#include <functional>
#include <string>
#include <string_view>

#include "heapwright/page/page.hpp"
#include "heapwright/report/show.hpp"
#include "heapwright/tables/tables.hpp"
#include "heapwright/time/date.hpp"

namespace heapwright::fuzz {

/// Read once a process.
const Tables& tables();

inline constexpr Date today{std::chrono::year(2026), std::chrono::November, std::chrono::day(7)};

/// Ends the process where something does not hold.
void require(bool holds, std::string_view what);

/// Whether work ends; an error of the library's family is a right answer too, but for a number that is none. Any other exception ends
/// the process.
bool ends_well(const std::function<void()>& work);
/// The same of what follows from an input that was accepted: every error ends the process.
void must_end_well(const std::function<void()>& work);

/// Counts an input that was accepted and answered. How many there were is told at the end of the process.
void count_answered();
long answered_so_far();

/// Whether an input's answer is put out in every form: of one in eight where volume counts, else of each. An input is the one or the other
/// for ever.
bool in_every_form(std::string_view input);

/// What leaves the program holds characters alone, and no number that is none.
/// @param input where a person may have written "nan"
void check_output(const std::string& output, std::string_view input);

/// The same of an answer as JSON, which is JSON, on a narrow screen and as HTML.
void check_answer(const std::string& json, const Page& page, const Show& show, std::string_view input);

/// A text as a file, for what reads by path.
class FileOf {
 public:
  explicit FileOf(std::string_view text);
  FileOf(const FileOf&) = delete;
  FileOf& operator=(const FileOf&) = delete;
  ~FileOf();
  const std::string& path() const { return path_; }

 private:
  int descriptor_;
  std::string path_;
};

}  // namespace heapwright::fuzz
