// What failed, for the command `drive`: the table of fault against symptom, and what a driver would
// notice with the named elements failed.
#pragma once

#include "scene/build/drive_judge.h"
#include "scene/drive/faults.h"
#include "viewer/cli/commands.h"
#include "viewer/cli/print.h"

#include <iosfwd>
#include <string>
#include <vector>

namespace lugline::cli {

/// The faults that --without, --stuck and --reversed mean.
std::vector<Fault> faults_asked(const Drive& drive, const DriveAsk& ask);

/// {"notices"[], "says", "carries_Nm", "asked_Nm", "slipping"[]}, without its range.
Json json_of(const RangeBehaviour& behaviour);

/// Every likely fault and what each range then does; status 0 when it answered.
int tell_faults(const Unit& unit, const DriveFacts& facts, const DriveOptions& options,
                Streams streams);

} // namespace lugline::cli
