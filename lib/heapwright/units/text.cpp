#include "heapwright/units/text.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <locale>
#include <optional>
#include <sstream>

#include "heapwright/units/decimal.hpp"
#include "heapwright/units/nearest.hpp"

namespace heapwright {
namespace {

// Past this a text is a slip or an attack, not a pile.
constexpr double largest_magnitude = 1e12;

/// Of lengths even a cube must stay a number to work out with: ten thousand kilometres.
double largest_si(Dimension dimension) { return dimension == Dimension::length ? 1e7 : largest_magnitude; }

std::string_view dimension_name(Dimension dimension) {
  switch (dimension) {
    case Dimension::length: return "a length";
    case Dimension::area: return "an area";
    case Dimension::volume: return "a volume";
    case Dimension::mass: return "a weight";
    case Dimension::duration: return "a time";
  }
  return "";
}

std::string_view dimension_example(Dimension dimension) {
  switch (dimension) {
    case Dimension::length: return "\"4 ft\" or \"1.2 m\"";
    case Dimension::area: return "\"5000 ft2\" or \"450 m2\"";
    case Dimension::volume: return "\"3 1/2 yd3\", \"20 gal\" or \"2 m3\"";
    case Dimension::mass: return "\"12 lb\" or \"5 kg\"";
    case Dimension::duration: return "\"14 days\" or \"3 weeks\"";
  }
  return "";
}

/// ""5 ft" is a length, not a volume": the text first, in the same words from every reader.
[[noreturn]] void refuse(std::string_view text, std::string_view why, std::string_view hint) {
  throw TextError("\"" + std::string(text) + "\" " + std::string(why), "write " + std::string(hint));
}

struct Sign {
  std::string_view utf8;
  std::string_view plain;
};

// What word processors and phones put in place of plain signs; vulgar fractions get a space before, for "3½".
constexpr std::array<Sign, 37> signs{
    {{"½", " 1/2"}, {"¼", " 1/4"}, {"¾", " 3/4"}, {"⅓", " 1/3"}, {"⅔", " 2/3"}, {"⅛", " 1/8"}, {"⅜", " 3/8"},   {"⅝", " 5/8"},
     {"⅞", " 7/8"}, {"²", "2"},    {"³", "3"},    {"′", "'"},    {"″", "\""},   {"’", "'"},    {"‘", "'"},      {"”", "\""},
     {"“", "\""},   {"°", "deg"},  {"º", "deg"},  {"˚", "deg"},  {"–", "-"},    {"−", "-"},    {"\u00a0", " "}, {"\u2009", " "},
     {"⁄", "/"},    {"∶", ":"},    {"₀", "0"},    {"₁", "1"},    {"₂", "2"},    {"₃", "3"},    {"₄", "4"},      {"₅", "5"},
     {"₆", "6"},    {"₇", "7"},    {"₈", "8"},    {"₉", "9"},    {"μ", "µ"}}};

/// Of A to Z alone: std::tolower follows the program's locale, and the Turkish one keeps an I.
constexpr char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

std::string plain_signs(std::string_view text) {
  std::string plain;
  for (std::size_t i = 0; i < text.size();) {
    const auto is_next = [&](const Sign& sign) { return text.substr(i).starts_with(sign.utf8); };
    const bool is_ascii = static_cast<unsigned char>(text[i]) < 0x80;  // which no sign begins with
    const auto sign = is_ascii ? signs.end() : std::find_if(signs.begin(), signs.end(), is_next);
    if (sign != signs.end()) {
      plain += sign->plain;
      i += sign->utf8.size();
    } else {
      plain += lower(text[i++]);
    }
  }
  return plain;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

/// Reads numbers off the front of a text.
class Cursor {
 public:
  explicit Cursor(std::string text, std::string_view original) : text_(std::move(text)), original_(original) {}

  void skip_spaces() {
    while (at_ < text_.size() && is_space(text_[at_])) ++at_;
  }
  bool done() const { return at_ >= text_.size(); }
  char peek(std::size_t ahead = 0) const { return at_ + ahead < text_.size() ? text_[at_ + ahead] : '\0'; }

  bool number_ahead() const { return is_digit(peek()) || (peek() == '.' && is_digit(peek(1))); }
  /// Whether number() finds one, in digits or in words.
  bool has_number() const {
    Cursor ahead = *this;
    ahead.skip_spaces();
    return ahead.number_ahead() || ahead.number_in_words();
  }

  /// "3", "3.5", "1e3", "1/4", "3 1/2", "3-1/2", "1,000", and the words half, quarter, a, an, one.
  double number() {
    skip_spaces();
    if (peek() == '-' && (is_digit(peek(1)) || peek(1) == '.')) refuse(original_, "is negative", "zero or more");
    if (!number_ahead()) {
      const std::optional<double> in_words = number_in_words();
      if (!in_words) refuse(original_, "does not begin with a number", "a number, then its unit");
      return *in_words;
    }
    const double value = decimal();
    if (peek() == '/') return in_range(value / denominator());
    const std::size_t before = at_;
    if (peek() == '-' || is_space(peek())) {
      ++at_;
      skip_spaces();
      if (is_digit(peek())) {
        const double numerator = decimal();
        if (peek() == '/' && is_digit(peek(1))) return in_range(value + numerator / denominator());
      }
      at_ = before;
    }
    return value;
  }

  /// All up to the next number that begins a new part, as in "60 ft 6 in"; "lb/1000 ft2" and "per 1000 ft2" are one part.
  std::string unit() {
    skip_spaces();
    std::string unit;
    while (!done()) {
      if (peek() == '\'' || peek() == '"') {
        if (!unit.empty()) break;
        unit = text_[at_++];
        if (unit == "'" && peek() == '\'') {
          unit = "\"";
          ++at_;
        }
        break;
      }
      const bool after_space = at_ > 0 && is_space(text_[at_ - 1]);
      if (number_ahead() && after_space && !unit.empty() && !continues(unit)) break;
      unit += text_[at_++];
    }
    return without_tail(unit);
  }

  /// All that is left.
  std::string rest() {
    skip_spaces();
    return without_tail(text_.substr(at_));
  }

 private:
  static std::string without_tail(std::string words) {
    while (!words.empty() && (is_space(words.back()) || words.back() == ',')) words.pop_back();
    return words;
  }

  static bool continues(std::string_view unit) {
    while (!unit.empty() && is_space(unit.back())) unit.remove_suffix(1);
    return unit.ends_with('/') || unit.ends_with(" per") || unit == "per";
  }

  bool take_word(std::string_view word) {
    if (std::string_view(text_).substr(at_, word.size()) != word) return false;
    const char next = peek(word.size());
    if (next != '\0' && !is_space(next) && next != '-') return false;
    at_ += word.size();
    skip_spaces();
    return true;
  }

  std::optional<double> number_in_words() {
    double value = 1.0;
    bool read = take_word("one") || take_word("an") || take_word("a");
    if (take_word("half"))
      value = 0.5, read = true;
    else if (take_word("quarter"))
      value = 0.25, read = true;
    if (!read) return std::nullopt;
    if (value < 1.0) {
      take_word("of");
      if (!take_word("an")) take_word("a");
    }
    return value;
  }

  double denominator() {
    ++at_;  // the stroke
    if (!is_digit(peek())) refuse(original_, "has a fraction without a denominator", "it like \"1/4\"");
    const double value = decimal();
    if (!(value > 0.0)) refuse(original_, "divides by zero", "it like \"1/4\"");
    return value;
  }

  void take_digits(std::string& token) {
    while (is_digit(peek())) token += text_[at_++];
  }

  double decimal() {
    std::string token;
    take_digits(token);
    // "0,500" and "1234,500" have a decimal comma: thousands would be a thousand times too much.
    const bool may_have_thousands = !token.empty() && token.size() <= 3 && token.front() != '0';
    while (peek() == ',' && is_digit(peek(1))) {
      const bool thousands = may_have_thousands && is_digit(peek(2)) && is_digit(peek(3)) && !is_digit(peek(4));
      if (!thousands) refuse(original_, "has a comma that is not one between thousands", "a decimal point, \"2.5\"");
      ++at_;
      take_digits(token);
    }
    if (peek() == '.') {
      token += text_[at_++];
      take_digits(token);
    }
    const std::size_t exponent_digits = peek(1) == '-' || peek(1) == '+' ? 2 : 1;
    if (peek() == 'e' && is_digit(peek(exponent_digits))) {
      token += text_.substr(at_, exponent_digits);
      at_ += exponent_digits;
      take_digits(token);
    }
    const std::optional<double> value = decimal_of(token);
    if (!value) refuse_size();
    return in_range(*value);
  }

  [[noreturn]] void refuse_size() const { refuse(original_, "is beyond what this tool works with", "a number below a million million"); }

  double in_range(double value) const {
    if (!(value <= largest_magnitude)) refuse_size();
    return value;
  }

  std::string text_;
  std::string_view original_;
  std::size_t at_ = 0;
};

/// Takes a minus, of whichever kind, from the front of a text; −1 where there was one, else 1.
double take_sign(std::string_view& text) {
  while (!text.empty() && is_space(text.front())) text.remove_prefix(1);
  for (const std::string_view minus : {"-", "−", "–"}) {
    if (!text.starts_with(minus)) continue;
    text.remove_prefix(minus.size());
    return -1.0;
  }
  return 1.0;
}

/// "-12.5", of at most fifteen digits; nothing for all that is written otherwise. Nearly every number of a long table is such, and
/// a stream for each would take most of the time. Digits and power of ten are both exact then, so their quotient is rounded once, and
/// is the same double as the stream's.
std::optional<double> plain_decimal(std::string_view text) {
  const bool minus = text.starts_with('-');
  if (minus) text.remove_prefix(1);
  constexpr std::size_t most_digits = 15;
  std::size_t digits = 0;
  double number = 0.0;
  double divisor = 1.0;
  bool after_point = false;
  for (const char c : text) {
    if (c == '.' && !after_point && digits > 0) {
      after_point = true;
    } else if (is_digit(c) && digits < most_digits) {
      ++digits;
      number = 10.0 * number + (c - '0');
      if (after_point) divisor *= 10.0;
    } else {
      return std::nullopt;
    }
  }
  if (digits == 0 || number / divisor > largest_magnitude) return std::nullopt;
  return (minus ? -number : number) / divisor;
}

struct Part {
  double number;
  std::string unit;
};

Cursor start_of(std::string_view text) {
  Cursor cursor(plain_signs(text), text);
  cursor.skip_spaces();
  if (cursor.done()) refuse(text, "is empty", "a number, then its unit");
  return cursor;
}

std::vector<Part> read_parts(std::string_view text) {
  Cursor cursor = start_of(text);
  std::vector<Part> parts;
  while (!cursor.done()) {
    const double number = cursor.number();
    parts.push_back({number, cursor.unit()});
    cursor.skip_spaces();
  }
  return parts;
}

/// Each character as it is compared: a capital in small, a space for what only stands between.
constexpr std::array<char, 256> compared_characters() {
  std::array<char, 256> compared{};
  for (std::size_t i = 0; i < compared.size(); ++i) compared[i] = lower(static_cast<char>(i));
  for (const char c : {'\t', '\n', '\r', '-', '_', '.', '^'}) compared[static_cast<unsigned char>(c)] = ' ';
  return compared;
}

/// "Sq. Ft." → "sqft"; the comparison form of unit spellings, still in the plural.
std::string without_separators(std::string_view words) {
  static constexpr std::array<char, 256> compared_as = compared_characters();
  std::string name(words.size(), '\0');
  std::size_t length = 0;
  for (const char c : words) {
    const char compared = compared_as[static_cast<unsigned char>(c)];
    name[length] = compared;
    length += compared == ' ' ? 0 : 1;
  }
  name.resize(length);
  return name;
}

bool spells(const UnitName& unit, const std::string& name) {
  if (name.starts_with(lower(unit.symbol.front())) && without_separators(unit.symbol) == name) return true;
  return std::find(unit.spellings.begin(), unit.spellings.end(), name) != unit.spellings.end();
}

const UnitName* find_unit(Dimension dimension, const std::string& name) {
  const bool plural = name.size() > 2 && name.ends_with('s');
  const std::string singular = name.substr(0, name.size() - (plural ? 1 : 0));
  for (const UnitName& unit : unit_names()) {
    if (unit.dimension == dimension && (spells(unit, name) || spells(unit, singular))) return &unit;
  }
  return nullptr;
}

const UnitName* find_unit_of_any_dimension(const std::string& name) {
  for (const Dimension d : {Dimension::length, Dimension::area, Dimension::volume, Dimension::mass, Dimension::duration}) {
    if (const UnitName* unit = find_unit(d, name)) return unit;
  }
  return nullptr;
}

void refuse_ambiguous(std::string_view text, const std::string& name) {
  if (name == "ton" || name == "tons") refuse(text, "is ambiguous: there are three kinds of ton", "short_ton (2000 lb) or t (1000 kg)");
  if (name == "longton" || name == "longtons") refuse(text, "is in long tons, which are not read", "short_ton (2000 lb) or t (1000 kg)");
  for (const std::string_view imperial : {"impgal", "imperialgal", "ukgal", "imperialgallon", "ukgallon"}) {
    if (name.starts_with(imperial)) refuse(text, "is in imperial gallons, which are not read", "L, or gal for US gallons");
  }
}

std::string units_of(Dimension dimension) {
  std::string list;
  for (const UnitName& unit : unit_names()) {
    if (unit.dimension == dimension) list += (list.empty() ? "" : ", ") + std::string(unit.symbol);
  }
  return list;
}

const UnitName& unit_of(std::string_view text, const std::string& words, Dimension wanted) {
  const std::string name = without_separators(words);
  if (name.empty()) refuse(text, "has no unit", "the unit too: " + std::string(dimension_example(wanted)));
  refuse_ambiguous(text, name);
  if (name == "sq" || name == "square" || name == "cu" || name == "cubic")
    refuse(text, "does not say " + std::string(name.starts_with("sq") ? "square" : "cubic") + " what", dimension_example(wanted));
  if (const UnitName* unit = find_unit(wanted, name)) return *unit;
  if (const UnitName* other = find_unit_of_any_dimension(name)) {
    refuse(text, "is " + std::string(dimension_name(other->dimension)) + ", not " + std::string(dimension_name(wanted)),
           dimension_example(wanted));
  }
  std::vector<std::string> known;
  for (const UnitName& unit : unit_names()) {
    if (unit.dimension == wanted) known.emplace_back(unit.symbol);
    if (unit.dimension == wanted) known.insert(known.end(), unit.spellings.begin(), unit.spellings.end());
  }
  const std::optional<std::string> near = nearest(name, known);
  refuse(text, "has an unknown unit, \"" + words + "\"", near ? "\"" + *near + "\"?" : "one of " + units_of(wanted));
}

double not_beyond(std::string_view text, double si, Dimension dimension) {
  if (!(si <= largest_si(dimension))) refuse(text, "is beyond what this tool works with", dimension_example(dimension));
  return si;
}

template <class Quantity>
Quantity not_beyond(std::string_view text, Quantity quantity, Dimension dimension) {
  not_beyond(text, quantity.value(), dimension);
  return quantity;
}

double read_si(std::string_view text, Dimension wanted) {
  double sum = 0.0;
  for (const Part& part : read_parts(text)) sum += part.number * unit_of(text, part.unit, wanted).si;
  return not_beyond(text, sum, wanted);
}

Part read_single(std::string_view text, std::string_view example) {
  const std::vector<Part> parts = read_parts(text);
  if (parts.size() != 1) refuse(text, "is more than one number", example);
  if (parts.front().unit.empty()) refuse(text, "has no unit", "the unit too: " + std::string(example));
  return parts.front();
}

/// "lb/yd3", "pounds per cubic yard", "lb/1000 ft2": SI size of a unit of mass over one of another dimension.
double mass_per(std::string_view text, const std::string& unit, Dimension below, std::string_view example) {
  std::size_t stroke = unit.find('/');
  std::size_t width = 1;
  if (stroke == std::string::npos) {
    stroke = unit.find(" per ");
    width = 5;
  }
  if (stroke == std::string::npos) refuse(text, "is not a weight over " + std::string(dimension_name(below)), example);
  const double above = unit_of(text, unit.substr(0, stroke), Dimension::mass).si;
  std::string denominator = unit.substr(stroke + width);
  Cursor cursor(denominator, text);
  cursor.skip_spaces();
  const double count = cursor.number_ahead() ? cursor.number() : 1.0;
  const double size = count * unit_of(text, cursor.unit(), below).si;
  if (!(size > 0.0)) refuse(text, "divides by nothing", example);
  return above / size;
}

double read_mass_per(std::string_view text, Dimension below, std::string_view example) {
  const Part part = read_single(text, example);
  const double si = part.number * mass_per(text, part.unit, below, example);
  if (!(si <= largest_magnitude)) refuse(text, "is beyond what this tool works with", example);
  return si;
}

}  // namespace

const std::vector<UnitName>& unit_names() {
  using enum Dimension;
  static const std::vector<UnitName> names{
      {"ft", length, unit::foot.value(), {"foot", "feet", "'"}},
      {"in", length, unit::inch.value(), {"inch", "inches", "\""}},
      {"yd", length, unit::yard.value(), {"yard"}},
      {"m", length, 1.0, {"meter", "metre"}},
      {"cm", length, 0.01, {"centimeter", "centimetre"}},
      {"mm", length, 0.001, {"millimeter", "millimetre"}},
      {"ft2", area, unit::square_foot.value(), {"sqft", "squareft", "squarefoot", "squarefeet", "sqfoot", "sqfeet", "sf"}},
      {"yd2", area, unit::square_yard.value(), {"sqyd", "squareyd", "squareyard", "sqyard"}},
      {"acre", area, unit::acre.value(), {"ac"}},
      {"m2", area, 1.0, {"sqm", "squarem", "squaremeter", "squaremetre", "sqmeter", "sqmetre"}},
      {"ha", area, 1e4, {"hectare"}},
      {"yd3", volume, unit::cubic_yard.value(), {"cuyd", "cubicyd", "cubicyard", "cuyard", "yard", "yd", "cy"}},
      {"ft3", volume, unit::cubic_foot.value(), {"cuft", "cubicft", "cubicfoot", "cubicfeet", "cufoot", "cufeet", "cf"}},
      {"gal", volume, unit::gallon.value(), {"gallon", "usgal", "usgallon"}},
      {"bushel", volume, unit::bushel.value(), {"bu", "usbushel"}},
      {"m3", volume, 1.0, {"cum", "cubicm", "cubicmeter", "cubicmetre", "cumeter", "cumetre"}},
      {"L", volume, unit::liter.value(), {"liter", "litre"}},
      {"lb", mass, unit::pound.value(), {"pound", "lbs", "#"}},
      {"oz", mass, unit::ounce.value(), {"ounce"}},
      {"short_ton", mass, unit::short_ton.value(), {"uston"}},
      {"kg", mass, 1.0, {"kilogram", "kilo", "kgs"}},
      {"g", mass, unit::gram.value(), {"gram"}},
      {"t", mass, unit::metric_ton.value(), {"tonne", "metricton", "mt"}},
      {"days", duration, unit::day.value(), {"day", "d"}},
      {"weeks", duration, unit::week.value(), {"week", "wk"}},
      {"h", duration, unit::hour.value(), {"hour", "hr"}},
      {"min", duration, 60.0, {"minute"}},
  };
  return names;
}

bool is_quantity(std::string_view text, Dimension dimension) {
  Cursor cursor(plain_signs(text), text);
  do {
    if (!cursor.has_number()) return false;
    cursor.number();
    if (find_unit(dimension, without_separators(cursor.unit())) == nullptr) return false;
    cursor.skip_spaces();
  } while (!cursor.done());
  return true;
}

std::vector<std::string> sides_in(std::string_view text) {
  std::string plain = plain_signs(text);
  for (const std::string_view by : {" by ", "\u00d7"}) {
    for (std::size_t at = plain.find(by); at != std::string::npos; at = plain.find(by)) plain.replace(at, by.size(), "\n");
  }
  for (std::size_t i = 1; i + 1 < plain.size(); ++i) {
    const bool between =
        (is_digit(plain[i - 1]) || is_space(plain[i - 1]) || plain[i - 1] == '\'') && (is_digit(plain[i + 1]) || is_space(plain[i + 1]));
    if (plain[i] == 'x' && between) plain[i] = '\n';
  }
  std::vector<std::string> sides;
  std::istringstream stream(plain);
  for (std::string side; std::getline(stream, side);) sides.push_back(side);
  if (sides.size() < 2) return {std::string(text)};
  const std::string& last = sides.back();
  const std::size_t unit = last.find_first_not_of("0123456789./ ");
  for (std::string& side : sides) {
    if (unit != std::string::npos && side.find_first_not_of("0123456789./ ") == std::string::npos) side += " " + last.substr(unit);
  }
  return sides;
}

Length read_length(std::string_view text) { return from_si<Length>(read_si(text, Dimension::length)); }
Area read_area(std::string_view text) {
  const std::vector<std::string> sides = sides_in(text);
  if (sides.size() == 1) return from_si<Area>(read_si(text, Dimension::area));
  if (sides.size() != 2) refuse(text, "has more than two sides", "\"60 ft by 30 ft\"");
  return not_beyond(text, read_length(sides[0]) * read_length(sides[1]), Dimension::area);
}
Volume read_volume(std::string_view text) {
  const std::vector<std::string> sides = sides_in(text);
  if (sides.size() == 1) return from_si<Volume>(read_si(text, Dimension::volume));
  if (sides.size() != 3) refuse(text, "has two sides: a volume wants three", "\"3 ft by 3 ft by 3 ft\"");
  return not_beyond(text, read_length(sides[0]) * read_length(sides[1]) * read_length(sides[2]), Dimension::volume);
}
Mass read_mass(std::string_view text) { return from_si<Mass>(read_si(text, Dimension::mass)); }
Duration read_duration(std::string_view text) { return from_si<Duration>(read_si(text, Dimension::duration)); }

std::variant<Volume, Mass> read_volume_or_mass(std::string_view text, const std::vector<std::string>& also_known) {
  const std::string words = read_parts(text).front().unit;
  const std::string name = without_separators(words);
  refuse_ambiguous(text, name);
  if (find_unit(Dimension::mass, name) != nullptr) return read_mass(text);
  if (name.empty() || find_unit(Dimension::volume, name) != nullptr || find_unit_of_any_dimension(name) != nullptr)
    return read_volume(text);
  std::vector<std::string> known = also_known;
  for (const UnitName& unit : unit_names()) {
    if (unit.dimension == Dimension::volume || unit.dimension == Dimension::mass) known.emplace_back(unit.symbol);
  }
  const std::optional<std::string> near = nearest(words, known);
  refuse(text, "has an unknown unit, \"" + words + "\"", near ? "\"" + *near + "\"?" : "a volume or a weight: \"1/2 yd3\", \"40 lb\"");
}

WaterMass read_water(std::string_view text) {
  const std::variant<Volume, Mass> amount = read_volume_or_mass(text);
  if (const Volume* volume = std::get_if<Volume>(&amount)) return *volume * water_density();
  return from_si<WaterMass>(std::get<Mass>(amount).value());
}

BulkDensity read_bulk_density(std::string_view text) {
  return from_si<BulkDensity>(read_mass_per(text, Dimension::volume, "\"350 lb/yd3\" or \"200 kg/m3\""));
}

ParticleDensity read_particle_density(std::string_view text) {
  return from_si<ParticleDensity>(read_mass_per(text, Dimension::volume, "\"1400 kg/m3\""));
}

MassPerArea read_mass_per_area(std::string_view text) {
  return from_si<MassPerArea>(read_mass_per(text, Dimension::area, "\"3 lb/1000ft2\" or \"15 g/m2\""));
}

TemperaturePoint read_temperature(std::string_view text) {
  constexpr std::string_view example = "\"131 degF\" or \"55 degC\"";
  std::string_view rest = text;
  const double sign = take_sign(rest);
  const Part part = read_single(rest, example);
  const std::optional<TemperatureScale> scale = temperature_scale(part.unit);
  if (!scale) refuse(text, "is not a temperature", example);
  const TemperaturePoint point = TemperaturePoint::on(*scale, sign * part.number);
  if (!(point.celsius() >= -90.0 && point.celsius() <= 200.0)) refuse(text, "is not a temperature of air or compost", example);
  return point;
}

std::optional<TemperatureScale> temperature_scale(std::string_view words) {
  constexpr char degree_sign_of_windows = '\xB0';  // in a file that is not in UTF-8
  std::string scale = without_separators(plain_signs(words));
  if (scale.starts_with(degree_sign_of_windows)) scale.erase(0, 1);
  for (const std::string_view degrees : {"degrees", "degree", "deg"}) {
    if (scale.starts_with(degrees)) {
      scale.erase(0, degrees.size());
      break;
    }
  }
  if (scale == "f" || scale == "fahrenheit" || scale == "farenheit" || scale == "℉") return TemperatureScale::fahrenheit;
  if (scale == "c" || scale == "celsius" || scale == "celcius" || scale == "centigrade" || scale == "℃") return TemperatureScale::celsius;
  return std::nullopt;
}

TemperatureDifference read_temperature_difference(std::string_view text) {
  constexpr std::string_view example = "\"46 degF\" or \"25 degC\"";
  const Part part = read_single(text, example);
  const std::optional<TemperatureScale> scale = temperature_scale(part.unit);
  if (!scale) refuse(text, "is not a difference of temperatures", example);
  const TemperatureDifference difference = TemperaturePoint::on(*scale, part.number) - TemperaturePoint::on(*scale, 0.0);
  if (!(difference.value() <= 290.0)) refuse(text, "is no difference of temperatures of air or compost", example);
  return difference;
}

CarbonNitrogenRatio read_carbon_to_nitrogen(std::string_view text) {
  constexpr std::string_view example = "\"30:1\"";
  const std::string plain = plain_signs(text);
  const std::size_t colon = plain.find(':');
  if (colon == std::string::npos) refuse(text, "is not a ratio", std::string("carbon to nitrogen as ") + std::string(example));
  const auto side = [&](const std::string& words) {
    Cursor cursor(words, text);
    const double value = cursor.number();
    cursor.skip_spaces();
    if (!cursor.done()) refuse(text, "is not a ratio", example);
    return value;
  };
  const double carbon = side(plain.substr(0, colon));
  const double nitrogen = side(plain.substr(colon + 1));
  const double ratio = carbon / nitrogen;
  if (!(ratio >= 1.0 / largest_magnitude && ratio <= largest_magnitude)) refuse(text, "is not a ratio of two numbers above zero", example);
  return carbon_to_nitrogen(ratio);
}

double read_percentage(std::string_view text) {
  constexpr std::string_view example = "\"55 %\"";
  const Part part = read_single(text, example);
  const std::string name = without_separators(part.unit);
  if (name != "%" && name != "percent" && name != "pct") refuse(text, "is not a percentage", example);
  if (!(part.number <= 100.0)) refuse(text, "is outside 0–100 %", "a percentage between 0 and 100");
  return part.number / 100.0;
}

MoistureWetBasis read_moisture_wet_basis(std::string_view text) { return wet_basis(read_percentage(text)); }
CarbonDryBasis read_carbon_dry_basis(std::string_view text) { return carbon_dry_basis(read_percentage(text)); }
NitrogenDryBasis read_nitrogen_dry_basis(std::string_view text) { return nitrogen_dry_basis(read_percentage(text)); }
OrganicMatterDryBasis read_organic_dry_basis(std::string_view text) { return organic_dry_basis(read_percentage(text)); }
PhosphateDryBasis read_phosphate_dry_basis(std::string_view text) { return from_si<PhosphateDryBasis>(read_percentage(text)); }
PotashDryBasis read_potash_dry_basis(std::string_view text) { return from_si<PotashDryBasis>(read_percentage(text)); }

double read_number(std::string_view text) {
  if (const std::optional<double> plain = plain_decimal(text)) return *plain;
  constexpr std::string_view example = "a number alone, with a decimal point: \"31.5\"";
  std::string_view rest = text;
  const double sign = take_sign(rest);
  Cursor cursor(plain_signs(rest), text);
  cursor.skip_spaces();
  if (!cursor.number_ahead()) refuse(text, cursor.done() ? "is empty" : "is not a number", example);
  const double value = cursor.number();
  cursor.skip_spaces();
  if (!cursor.done()) refuse(text, "is not a number alone", example);
  return sign * value;
}

std::optional<CountedWords> counted_words(std::string_view text) {
  if (!Cursor(plain_signs(text), text).has_number()) return std::nullopt;
  return read_counted_words(text);
}

CountedWords read_counted_words(std::string_view text) {
  Cursor cursor = start_of(text);
  const double number = cursor.number();
  return {number, cursor.rest()};
}

std::string plain_name(std::string_view name) {
  const bool has_signs = std::any_of(name.begin(), name.end(), [](char c) { return static_cast<unsigned char>(c) >= 0x80; });
  std::string plain = without_separators(has_signs ? std::string_view(plain_signs(name)) : name);
  const bool in_es = plain.ends_with("xes") || plain.ends_with("ches") || plain.ends_with("shes");
  if (plain.size() > 4 && in_es) {
    plain.resize(plain.size() - 2);
  } else if (plain.size() > 3 && plain.ends_with('s') && !plain.ends_with("ss")) {
    plain.pop_back();
  }
  return plain;
}

// Our own, because fmt writes either decimals or, for significant digits, an exponent where a number is large: 12000 as 1.2e+04.
std::string print_number(double value, int significant_digits) {
  if (!std::isfinite(value)) throw NotFinite();
  if (value == 0.0) return "0";
  const int magnitude = static_cast<int>(std::floor(std::log10(std::abs(value))));
  const int decimals = std::clamp(significant_digits - 1 - magnitude, -12, 15);
  const double step = std::pow(10.0, -decimals);
  const double rounded = decimals < 0 ? std::round(value / step) * step : value;
  std::ostringstream stream;
  stream.imbue(std::locale::classic());
  stream.setf(std::ios::fixed);
  stream.precision(std::max(decimals, 0));
  stream << rounded;
  std::string text = stream.str();
  if (text.find('.') != std::string::npos) {
    while (text.ends_with('0')) text.pop_back();
    if (text.ends_with('.')) text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

namespace {
double size_of_unit(Dimension dimension, std::string_view symbol) {
  for (const UnitName& unit : unit_names()) {
    if (unit.dimension == dimension && unit.symbol == symbol) return unit.si;
  }
  throw TextError("\"" + std::string(symbol) + "\" is not a unit of " + std::string(dimension_name(dimension)),
                  "write one of " + units_of(dimension));
}

std::string print_si(double si, Dimension dimension, std::string_view symbol, int significant_digits) {
  return print_number(si / size_of_unit(dimension, symbol), significant_digits) + " " + std::string(symbol);
}
}  // namespace

std::string print_percent(double share, int significant_digits) { return print_number(100.0 * share, significant_digits) + " %"; }
std::string print_ratio(CarbonNitrogenRatio ratio, int significant_digits) {
  return print_number(ratio.value(), significant_digits) + ":1";
}
std::string print_density(BulkDensity density, int significant_digits) {
  return print_number(density.value(), significant_digits) + " kg/m3";
}

std::string print_in(Length value, std::string_view symbol, int digits) {
  return print_si(value.value(), Dimension::length, symbol, digits);
}
std::string print_in(Area value, std::string_view symbol, int digits) { return print_si(value.value(), Dimension::area, symbol, digits); }
std::string print_in(Volume value, std::string_view symbol, int digits) {
  return print_si(value.value(), Dimension::volume, symbol, digits);
}
std::string print_in(Mass value, std::string_view symbol, int digits) { return print_si(value.value(), Dimension::mass, symbol, digits); }
std::string print_in(Duration value, std::string_view symbol, int digits) {
  return print_si(value.value(), Dimension::duration, symbol, digits);
}

}  // namespace heapwright
