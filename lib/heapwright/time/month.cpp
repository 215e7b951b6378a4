#include "heapwright/time/month.hpp"

namespace heapwright {
namespace {

std::chrono::year_month month_of(Date day, int later) {
  return std::chrono::year_month(day.year(), day.month()) + std::chrono::months(later);
}
int number_of(std::chrono::day day) { return static_cast<int>(static_cast<unsigned>(day)); }

}  // namespace

Date first_of_month(Date day, int later) { return Date(month_of(day, later) / 1); }

Date end_of_month(Date day, int later) { return Date(month_of(day, later) / std::chrono::last); }

int days_in_month(Date day) { return number_of(end_of_month(day).day()); }

int months_between(Date from, Date to) { return static_cast<int>((month_of(to, 0) - month_of(from, 0)).count()); }

double share_of_month_over(Date day) { return static_cast<double>(number_of(day.day())) / days_in_month(day); }

double share_of_month_left(Date day) { return static_cast<double>(days_in_month(day) + 1 - number_of(day.day())) / days_in_month(day); }

}  // namespace heapwright
