#include "command.hpp"

#include <chrono>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <iostream>

namespace heapwright::cli {

void CommonOptions::add_to(CLI::App& command) {
  command.add_flag("--json", json, "print JSON (SI units) for other programs");
  command.add_option("--units", units, "how amounts are shown: us, si or both")->check(CLI::IsMember({"us", "si", "both"}));
  command.add_option("--materials", materials_file, "a file with feedstocks of your own");
  command.add_option("--output", output, "write to a file instead of the screen");
  command.add_flag("--force", force, "overwrite the output file");
}

Materials CommonOptions::materials() const {
  Materials materials = built_in_materials();
  if (!materials_file.empty()) add_materials_file(materials, materials_file);
  return materials;
}

ShownUnits CommonOptions::shown_units(ShownUnits of_yard) const {
  for (const auto& [word, meaning] : shown_units_words()) {
    if (word == units) return meaning;
  }
  return of_yard;
}

Show CommonOptions::show(ShownUnits of_yard) const { return Show(shown_units(of_yard)); }

Yard CommonOptions::yard(const std::string& file) const {
  if (std::filesystem::path(file).extension() == ".csv")
    throw TextError(file + " is a table, and a yard file is wanted",
                    "a log of temperatures is given with: heapwright readings --log " + file);
  Yard yard = read_yard(file, materials());
  yard.units = shown_units(yard.units);
  return yard;
}

Yard CommonOptions::yard_of_options() const {
  Yard yard;
  yard.materials = materials();
  yard.units = shown_units(yard.units);
  return yard;
}

void CommonOptions::print(const std::string& text) const {
  if (output.empty()) {
    std::cout << text << std::flush;
    if (!std::cout) throw TextError("standard output cannot be written", "is the disk full, or the pipe closed?");
    return;
  }
  write_whole("--output: ", output, text, force);
}

void WorkingOption::add_to(CLI::App& command) {
  command.add_flag("--show-working", asked, "show each step: formula, numbers, result, source");
}

const Measures& WorkingOption::measures(const CommonOptions& common, const Show& show) const {
  return show.in_us_units() && !common.json ? us_measures() : si_measures();
}

void check_writable(const std::string& option, const std::string& path, bool force) {
  std::error_code trouble;
  if (std::filesystem::is_directory(path, trouble)) throw TextError(option + path + " is a folder", "name a file in it");
  if (std::filesystem::exists(path, trouble) && !std::filesystem::is_regular_file(path, trouble))
    throw TextError(option + path + " is no plain file", "name another");
  if (std::filesystem::exists(path, trouble) && !force)
    throw TextError(option + path + " exists already", "name another file, or add --force");
  const std::filesystem::path folder = std::filesystem::absolute(path, trouble).parent_path();
  if (!std::filesystem::is_directory(folder, trouble))
    throw TextError(option + path + " cannot be written: there is no folder " + folder.string(), "make it first, or name another file");
}

void write_whole(const std::string& option, const std::string& path, const std::string& text, bool force) {
  check_writable(option, path, force);
  std::error_code trouble;
  // Beside its place first and then renamed, so that the file is whole or not there.
  const std::string beside = path + ".heapwright-part";
  {
    std::ofstream file(beside, std::ios::binary);
    file << text << std::flush;
    if (!file) {
      std::remove(beside.c_str());
      throw TextError(option + path + " cannot be written", "check the folder");
    }
  }
  std::filesystem::rename(beside, path, trouble);
  if (trouble) {
    std::remove(beside.c_str());
    throw TextError(option + path + " cannot be written: " + trouble.message(), "check the name");
  }
}

Supply read_supply_option(const std::string& option, const std::string& text, const Materials& materials) {
  return read_option(option, text, [&](std::string_view words) {
    const std::size_t equals = words.find('=');
    Supply supply = supply_of(materials, words.substr(0, equals));
    if (equals == std::string_view::npos) {
      supply.use = Use::unlimited;
      return supply;
    }
    set_amount(supply, read_amount(words.substr(equals + 1), materials), materials);
    if (!supply.mass(*supply.amount))
      throw TextError("no bulk density of " + supply.feedstock.id + " is known, so a volume of it has no weight",
                      "give the amount as a weight");
    return supply;
  });
}

void add_supplies(Yard& yard, const std::string& option, const std::vector<std::string>& texts) {
  const std::size_t count = yard.supplies.size() + texts.size();
  if (count > most_supplies)
    throw TextError(
        option + ": " + std::to_string(count) + " supplies are more than the " + std::to_string(most_supplies) + " that one yard may list",
        "join some");
  for (const std::string& text : texts) yard.supplies.push_back(read_supply_option(option, text, yard.materials));
}

WaterMass read_water_amount(std::string_view text, const Materials& materials) {
  const Amount amount = read_amount(text, materials);
  if (const auto volume = volume_of(amount)) return *volume * water_density();
  return read_water(text);
}

Date today() {
  const std::time_t now = std::time(nullptr);
  const std::tm* local = std::localtime(&now);
  return {std::chrono::year(local->tm_year + 1900), std::chrono::month(static_cast<unsigned>(local->tm_mon) + 1),
          std::chrono::day(static_cast<unsigned>(local->tm_mday))};
}

}  // namespace heapwright::cli
