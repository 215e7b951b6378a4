// Prints the days of a reference run of the pile model as CSV: run_pile R1
#include <cstdio>

#include "../reference/process_runs.hpp"

using namespace heapwright;

int main(int count, char** words) {
  if (count != 2 || runs::all().count(words[1]) == 0) {
    std::fputs("run_pile R1 … R5\n", stderr);
    return 2;
  }
  const runs::Run& run = runs::all().at(words[1]);
  const ProcessParameters best = built_in_ensemble().best;
  Pile pile = run.pile(best);
  std::puts(
      "day,core_degc,mean_degc,edge_degc,volatile_solids_loss,moisture,carbon_to_nitrogen,nitrogen_loss,respiration_mean,"
      "respiration_worst,rotted_worst,relative_volume,core_oxygen,wet_mass_kg");
  for (int day = 0; day <= run.days; ++day) {
    const PileState now = pile.state();
    std::printf("%d,%.12g,%.12g,%.12g,%.12g,%.12g,%.12g,%.12g,%.12g,%.12g,%.12g,%.12g,%.12g,%.12g\n", day, now.core.celsius(),
                now.mean.celsius(), now.edge.celsius(), now.volatile_solids_loss, now.moisture.value(), now.carbon_to_nitrogen.value(),
                now.nitrogen_loss, value_in(mg_carbon_per_g_and_day, now.respiration_mean),
                value_in(mg_carbon_per_g_and_day, now.respiration_worst), now.rotted_worst, now.relative_volume, now.core_oxygen,
                now.mass.value());
    run.events(pile, best, day);
    pile.live_a_day(run.air(day), hourly_steps);
  }
}
