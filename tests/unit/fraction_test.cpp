#include "heapwright/units/fraction.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <string>

#include "heapwright/units/text.hpp"

using namespace heapwright;

TEST_CASE("a share is between nothing and all, bounds included", "[fraction]") {
  const double inside = GENERATE(0.0, std::numeric_limits<double>::denorm_min(), 0.35, std::nextafter(1.0, 0.0), 1.0);
  CHECK(AirSpace::of(inside).value() == inside);
}

TEST_CASE("nothing else is a share", "[fraction]") {
  using Limits = std::numeric_limits<double>;
  const double outside =
      GENERATE(-Limits::denorm_min(), -0.01, std::nextafter(1.0, 2.0), 35.0, Limits::infinity(), -Limits::infinity(), Limits::quiet_NaN());
  CAPTURE(outside);
  CHECK_THROWS_AS(AirSpace::of(outside), DomainError);
}

TEST_CASE("the error names the bounds and what was given in per cent", "[fraction]") {
  CHECK_THROWS_WITH(ShareOfVolume::of(1.62), Catch::Contains("between 0 and 100 %") && Catch::Contains("162"));
}

TEST_CASE("a share and its rest are all of it", "[fraction]") {
  CHECK(ShareOfVolume::of(0.25).rest() == ShareOfVolume::of(0.75));
  CHECK(ShareOfVolume::of(0.0).rest() == ShareOfVolume::of(1.0));
  CHECK(ShareOfVolume::of(1.0).rest() == ShareOfVolume::of(0.0));

  const double any = GENERATE(take(100, random(0.0, 1.0)));
  const double rest = ShareOfVolume::of(any).rest().value();
  CHECK_NOTHROW(ShareOfVolume::of(rest));
  CHECK_THAT(any + rest, Catch::WithinULP(1.0, 1));  // one subtraction, one addition
}

TEST_CASE("shares of one basis have an order", "[fraction]") {
  CHECK(AirSpace::of(0.3) < AirSpace::of(0.35));
  CHECK(AirSpace::of(0.35) >= AirSpace::of(0.35));
  CHECK(AirSpace::of(0.35) != AirSpace::of(0.3));
}

TEST_CASE("air that is left is below nothing where it does not fit", "[fraction]") {
  CHECK(AirLeft::of(-0.25).value() == -0.25);
  CHECK(AirLeft::of(1.0).value() == 1.0);
  CHECK(AirLeft::of(0.3) < AirSpace::of(0.35));
  CHECK_FALSE(AirLeft::of(0.35) < AirSpace::of(0.35));
  CHECK(AirLeft::of(-0.1) < AirLeft::of(0.0));
  CHECK_THROWS_AS(AirLeft::of(std::nextafter(1.0, 2.0)), DomainError);
  CHECK_THROWS_AS(AirLeft::of(std::nan("")), DomainError);
}

TEST_CASE("a share is read from a percentage", "[fraction][text]") {
  CHECK(read_fraction<OfLooseVolume>("30 %") == ShareOfLooseVolume::of(0.3));
  CHECK(read_fraction<OfLooseVolume>("100 %") == ShareOfLooseVolume::of(1.0));
  CHECK_THROWS_AS(read_fraction<OfLooseVolume>("0.3"), TextError);
  CHECK_THROWS_AS(read_fraction<OfLooseVolume>("101 %"), TextError);
}
