#pragma once
/// Quantities in words for a person: in the units they asked for, rounded to what the data deserve.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "heapwright/lawn/topdressing.hpp"
#include "heapwright/materials/assumption.hpp"
#include "heapwright/materials/materials.hpp"
#include "heapwright/page/words.hpp"
#include "heapwright/units/quantities.hpp"
#include "heapwright/units/shown_units.hpp"

namespace heapwright {

/// Shows quantities in US units, SI, or US with SI in brackets.
class Show {
 public:
  explicit Show(ShownUnits units) : units_(units) {}

  /// Whether US units, or SI, are among those that are shown.
  bool in_us_units() const { return units_ != ShownUnits::si; }
  bool in_si_units() const { return units_ != ShownUnits::us; }

  std::string volume(Volume value) const;                                 ///< "6.9 cu ft", "2.4 cu yd", "180 L", "1.8 m3"
  std::string capacity(Volume value) const;                               ///< of a container: "30 gallons"
  std::string about_capacity(Volume value) const;                         ///< "2.5 gallons"
  std::string capacity_range(Volume low, Volume high) const;              ///< "30 to 33 gallons"
  std::string volume_range(Volume low, Volume high) const;                ///< "3 to 12 cu ft"
  std::string volume_band(Volume likely, Volume low, Volume high) const;  ///< "5.6 cu ft, from 2.4 to 11 cu ft"
  std::string volume_in_column(Volume value, Volume largest) const;       ///< in the unit of the largest
  std::string area(Area value) const;                                     ///< "5000 sq ft"
  std::string area_out_of(Area part, Area whole) const;                   ///< "340 of 4090 sq ft"
  std::string length(Length value) const;                                 ///< "4 ft", "1.2 m"
  std::string about_length(Length value) const;                           ///< "17 ft"
  std::string depth(Length value) const;                                  ///< "1/4 in", "6 mm"
  std::string mass(Mass value) const;                                     ///< "220 lb"
  std::string mass_range(Mass low, Mass high) const;                      ///< "3.3 to 6.6 tons", short tons
  std::string water(WaterMass value) const;                               ///< "24 gallons", "90 L"
  std::string density(BulkDensity value) const;                           ///< "135 lb/cu yd"
  std::string density_unit() const;                                       ///< heads a column of density_number()
  /// Without its unit: "135".
  std::string density_number(BulkDensity value) const;
  std::string lawn_measure() const;                                              ///< "1000 sq ft", "100 m2"
  std::string on_lawn_measure(MassPerArea value) const;                          ///< "5.1 lb", "2.5 kg"
  std::string roughly_on_lawn_measure(MassPerArea value) const;                  ///< "0.2 lb", "1.5 lb"
  std::string on_lawn_measure_band(const LikelyBand<MassPerArea>& value) const;  ///< "5.1 lb (2.3 to 7.9)"
  std::string temperature(TemperaturePoint value) const;                         ///< "30 °F"
  std::string temperature_rise(TemperatureDifference value) const;               ///< "22 °F"
  std::string days(Duration value) const;                                        ///< "14 days"
  /// Of whichever kind it is.
  std::string value(const AssumedValue& value) const;
  /// "135 lb/cu yd, from 70 lb/cu yd to 200 lb/cu yd"
  std::string assumed(const Assumption& assumption) const;
  std::string tested(const Tested& tested) const;  ///< "12 °C", "3.1 mg CO2-C/g OM/day"
  std::string words(const Words& words) const;     ///< a sentence, its quantities in the person's units

 private:
  std::string both(std::string us, std::string si) const;
  ShownUnits units_;
};

std::string show_ratio(CarbonNitrogenRatio ratio);     ///< "32"
std::string show_moisture(MoistureWetBasis moisture);  ///< "55 %"
std::string show_percent(double fraction);             ///< "41 %"

/// "bags", "branches"
std::string plural(const std::string& name);

/// "24 bags", "2 1/2 buckets", "1 bucket", "half a bucket": to the half, from ten on to the whole; less than a quarter is "less than half a
/// bucket".
std::string show_count(double count, const std::string& container_name);

/// Breaks text into lines of at most `width` characters; lines after the first are indented.
std::string wrap(std::string_view text, std::size_t indent = 0, std::size_t width = 78);

}  // namespace heapwright
