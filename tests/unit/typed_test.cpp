// What people type, and what each must become: tests/data/typed.tsv, invented from how people talk.

#include <catch2/catch.hpp>

#include <fstream>
#include <map>
#include <sstream>

#include "heapwright/error.hpp"
#include "heapwright/guide/plain.hpp"
#include "heapwright/guide/reply.hpp"
#include "heapwright/guide/things.hpp"
#include "heapwright/materials/keep_out.hpp"
#include "heapwright/maturity/log.hpp"
#include "heapwright/maturity/observations.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

struct Typed {
  std::string question;
  std::string typed;
  std::string becomes;
};

std::vector<Typed> all_typed() {
  std::ifstream file("data/typed.tsv");
  std::vector<Typed> rows;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.starts_with("#")) continue;
    const std::size_t first = line.find('\t');
    const std::size_t second = line.find('\t', first + 1);
    rows.push_back({line.substr(0, first), line.substr(first + 1, second - first - 1), line.substr(second + 1)});
  }
  return rows;
}

const Tables& tables() {
  static const Tables built_in = built_in_tables();
  return built_in;
}

/// The question of the guide that a row is about.
const Question* question_of(const std::string& name) {
  const std::map<std::string, std::string> ids{{"leaves", "leaves"}, {"clippings", "clippings"}, {"lawn", "lawn"},
                                               {"bin", "bin"},       {"date", "built"},          {"turn", "turn"},
                                               {"people", "scraps"}, {"winter", "winter"}};
  const auto id = ids.find(name);
  if (id == ids.end()) return nullptr;
  for (const Question& question : *tables().questions) {
    if (question.id == id->second) return &question;
  }
  return nullptr;
}

std::string join(const std::vector<std::string>& texts, const std::string& between) {
  std::string joined;
  for (const std::string& text : texts) joined += (joined.empty() ? "" : between) + text;
  return joined;
}

std::string amount_words(const Supply& supply) {
  const Amount& amount = *supply.amount;
  std::ostringstream words;
  const auto number = [&](double value) {
    if (!supply.estimated || supply.estimated->from) return print_number(value, 5);
    return print_number(value * supply.estimated->low, 5) + ".." + print_number(value * supply.estimated->high, 5);
  };
  if (const auto* counted = std::get_if<ContainerCount>(&amount)) return number(counted->count) + " " + counted->container;
  if (const auto* mass = std::get_if<Mass>(&amount)) return number(mass->value()) + " kg";
  return number(std::get<Volume>(amount).value() * 1000.0) + " L";
}

/// An amount in SI, however it is written: "3 yd3" and "81 ft3" are the same.
std::string same_amount(std::string text) {
  const std::size_t dots = text.find("..");
  if (dots != std::string::npos) text.replace(dots, 2, " to ");
  Supply supply = supply_of(tables().materials, "leaves");
  take_amount(supply, text, tables().materials);
  return amount_words(supply);
}

std::string same_sides(const std::string& text) {
  std::string words;
  for (const std::string& side : sides_in(text)) {
    const bool is_length = is_quantity(side, Dimension::length);
    words += (words.empty() ? "" : " by ") + (is_length ? print_number(read_length(side).value(), 5) : side);
  }
  return words;
}

/// Of "4000..5000 ft2" the middle, "4500 ft2".
std::string middle_of_two(const std::string& text) {
  const std::size_t dots = text.find("..");
  if (dots == std::string::npos) return text;
  const std::size_t unit = text.find(' ');
  const double middle = (std::stod(text) + std::stod(text.substr(dots + 2))) / 2.0;
  return print_number(middle, 6) + (unit == std::string::npos ? "" : text.substr(unit));
}

/// What a row's `becomes` and an answer have in common form.
std::string expected(const Typed& row) {
  const std::string& becomes = row.becomes;
  if (becomes == "none" || becomes == "unknown" || becomes.starts_with("ask:")) return becomes.substr(0, becomes.find(':'));
  if (row.question == "leaves" || row.question == "clippings")
    return becomes.find(" by ") != std::string::npos ? same_sides(becomes) : same_amount(becomes);
  if (row.question == "lawn") return print_number(read_area(middle_of_two(becomes)).value(), 3);
  if (row.question == "bin") {
    if (becomes.starts_with("round ")) return "round " + same_sides(becomes.substr(6));
    return is_quantity(becomes, Dimension::volume) ? print_number(read_volume(becomes).value(), 4) + " m3" : same_sides(becomes);
  }
  if (row.question == "turn") return becomes == "never" ? "none" : print_number(read_duration(middle_of_two(becomes)).value(), 5);
  if (row.question == "people") return middle_of_two(becomes);
  if (row.question == "winter" && becomes.starts_with("state: ")) return becomes.substr(7);
  if (row.question == "winter" && becomes.find(" and ") != std::string::npos) {
    const std::size_t at = becomes.find(" and ");
    return print_number(read_temperature(becomes.substr(0, at)).celsius(), 4) + " and " +
           print_number(read_temperature(becomes.substr(at + 5)).celsius(), 4);
  }
  if (row.question == "have" && becomes.find(" = ") != std::string::npos) {
    const std::size_t at = becomes.find(" = ");
    return becomes.substr(0, at) + " = " + same_amount(becomes.substr(at + 3));
  }
  if (row.question == "temperature") return print_number(read_temperature(becomes).celsius(), 4);
  return becomes.starts_with("out:") ? "out" : becomes;
}

std::string of_question(const Question& question, const Typed& row) {
  const Reply reply =
      read_reply(question, row.typed, tables(), Date(std::chrono::year(2026), std::chrono::month(11), std::chrono::day(28)));
  if (reply.is.count("unknown") != 0) return "unknown";
  if (reply.is.count("none") != 0) return "none";
  const std::string& name = row.question;
  if (name == "leaves" || name == "clippings")
    return reply.is.count("pile") != 0 ? same_sides(join(reply.texts, " by ")) : same_amount(reply.texts.front());
  if (name == "lawn") return print_number(read_area(reply.texts.front()).value(), 3);
  if (name == "bin") {
    if (reply.is.count("volume") != 0) return print_number(read_volume(reply.texts.front()).value(), 4) + " m3";
    return (reply.is.count("round") != 0 ? "round " : "") + same_sides(join(reply.texts, " by "));
  }
  if (name == "winter" && reply.texts.size() == 2)
    return print_number(read_temperature(reply.texts[0]).celsius(), 4) + " and " +
           print_number(read_temperature(reply.texts[1]).celsius(), 4);
  if (name == "turn") return print_number(read_duration(reply.texts.front()).value(), 5);
  return join(reply.texts, " and ");
}

std::string of_material(const std::string& typed) {
  const Feedstock& found = *find_named_feedstock(tables().materials, typed).feedstock;
  supply_of(tables().materials, typed);
  return found.id;
}

std::string of_thermometer(const std::string& typed) {
  const TemperaturePoint core = read_temperature(plain_answer(typed));
  if (!is_a_pile_temperature(core)) throw TextError("no temperature of a pile", "read it again");
  return print_number(core.celsius(), 4);
}

/// What the program makes of a row; "ask" where it refuses it.
std::string answered(const Typed& row) {
  try {
    if (const Question* question = question_of(row.question)) return of_question(*question, row);
    if (row.question == "noticed") return read_noticed(*tables().symptoms, row.typed);
    if (row.question == "temperature") return of_thermometer(row.typed);
    if (row.question == "material") return of_material(row.typed);
    const Supply supply = read_said_supply(row.typed, tables().materials);
    return supply.feedstock.id + (supply.amount ? " = " + amount_words(supply) : "");
  } catch (const KeptOut&) {
    return "out";
  } catch (const TextError& error) {
    return error.hint().empty() ? "refused without a hint" : "ask";
  }
}

bool is_right(const Typed& row, const std::string& found) {
  if (row.becomes.starts_with("known: ")) {
    const Feedstock* feedstock = feedstock_called(tables().materials, row.typed);
    return found == "out" || (feedstock != nullptr && feedstock->name.find(row.becomes.substr(7)) != std::string::npos);
  }
  const bool part_of_state = row.becomes.starts_with("state: ") && found.ends_with(row.becomes.substr(7));  // "eastern Washington"
  return part_of_state || found == expected(row);
}

}  // namespace

TEST_CASE("what people type becomes what they mean, or is asked about", "[typed]") {
  std::size_t right = 0;
  std::vector<std::string> wrong;
  std::vector<std::string> asked;
  const std::vector<Typed> rows = all_typed();
  REQUIRE(rows.size() >= 400);
  for (const Typed& row : rows) {
    const std::string found = answered(row);
    if (is_right(row, found)) {
      ++right;
      continue;
    }
    (found == "ask" || found == "out" ? asked : wrong).push_back(row.question + "\t" + row.typed + "\t" + row.becomes + "\t" + found);
  }
  INFO("asked about, and need not be:\n" << join(asked, "\n"));
  INFO("wrong:\n" << join(wrong, "\n"));
  INFO(right << " of " << rows.size() << " right");
  CHECK(wrong.empty());
  CHECK(static_cast<double>(right) >= 0.97 * static_cast<double>(rows.size()));
}

}  // namespace heapwright
