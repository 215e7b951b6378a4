#pragma once
/// What the pages share. Not installed: users of the library get whole pages.

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "heapwright/mix/answer.hpp"
#include "heapwright/page/page.hpp"
#include "heapwright/recipe/recipe.hpp"

namespace heapwright {

/// Builds a page section by section.
class PageWriter {
 public:
  explicit PageWriter(std::string subject, std::string title = {}) : page_{std::move(subject), std::move(title), {}} {}

  /// Begins a section. Without blocks it is left out in the end.
  PageWriter& section(Depth depth, Words heading = {});
  PageWriter& paragraph(Words words);
  PageWriter& bullets(std::vector<Words> items);
  PageWriter& labels(Labels labels);
  PageWriter& block(Block block);
  /// The page, its sections in the order of their depth, empty ones left out.
  Page page() &&;

 private:
  Page page_;
};

/// No more than so many of some words.
std::vector<Words> first_of(std::vector<Words> words, std::size_t most);
/// So many, to the last digit.
Number whole(long long count);

/// "Because of ammonia": with a capital.
std::string capital(std::string text);
Words capital(const Words& words);

// --- the end of every screen of things to do ---

/// The steps of the work at which cautions are shown: gather, build, turn, use.
using WorkSteps = std::set<std::string_view>;

/// What to measure first, what to mind today, and what the answer rests on. @param today the steps of today's work
void end_act(PageWriter& writer, const Grounds& grounds, const Materials& materials, const WorkSteps& today);

/// Those of today's work: three, and whatever else may burn, poison or infect.
std::vector<Caution> cautions_of_today(const Grounds& grounds, const Materials& materials, const WorkSteps& today);
/// All of an answer, the most important first.
std::vector<Caution> cautions_of(const Grounds& grounds, const Materials& materials);
/// "C:N of autumn leaves, 49, from 27 to 72: Heckman 1996, seen": up to three of the figures that matter most; empty where there are none.
Words rests_on(const Grounds& grounds);
/// "weigh one full leaf bag of autumn leaves"
Words to_measure(const Measurement& first);

/// Those cautions that cannot wait, above all else.
void urgent_cautions(PageWriter& writer, const Grounds& grounds, const Materials& materials);

/// All assumptions with their sources, and all cautions; a working that was asked for stands below what to do.
/// Why a measurement comes first, too. With them a page is whole.
Page finished(PageWriter writer, const Grounds& grounds, const Materials& materials);

// --- amounts ---

/// In whole and half containers, or by volume where the person named none.
Words amount_of(const std::optional<ContainerCount>& counted, Volume volume, const Materials& materials);
/// In containers as they were counted, thirds and quarters too.
Words as_counted(const ContainerCount& counted, const Materials& materials);
/// In the person's own measure: containers, a weight, or a volume.
Words own_measure(const RecipeAmount& amount, const std::optional<ContainerCount>& containers, Volume volume, const Materials& materials);
/// Water as it is carried.
Words carried(WaterMass water, const Materials& materials);

}  // namespace heapwright
