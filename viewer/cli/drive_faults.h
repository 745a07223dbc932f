// What failed, for the command `drive`: the table of fault against symptom, and what a driver would
// notice with the named elements failed.
#pragma once

#include "scene/build/drive_judge.h"
#include "scene/drive/diagnose.h"
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

/// What a driver reported and a gauge read, as --symptom and --reading write them.
struct Reported {
  std::vector<DriverSymptom> symptoms;
  std::vector<PressureReading> readings;
  std::string wrong; ///< what cannot be understood of it; else empty
};
Reported reported(const Drive& drive, const DriveOptions& options);

/// What explains it, and what does not; status 0 when something does.
int tell_diagnosis(const Unit& unit, const DriveFacts& facts, const Reported& reported,
                   const DriveOptions& options, Streams streams);

/// Every likely fault and what each range then does; status 0 when it answered.
int tell_faults(const Unit& unit, const DriveFacts& facts, const DriveOptions& options,
                Streams streams);

} // namespace lugline::cli
