// The job as it is kept on file: what the panel adds to it, and what it becomes again.
#pragma once

#include <string>
#include <vector>

#include "sheet/job.h"

namespace proofleaf::shell {

struct App;
struct Task;
struct DeliveryResult;

struct JobSheet {
  int number = 1, of = 1;  // of the edition
  std::string currency;
  double cost = 0;                   // of one print, in that currency
  double edition_cost = 0;           // of the edition as a whole, apart from its prints
  std::vector<JobCost> other_costs;  // of a reopened job; they stay in it
  std::string notes;
  JobReturned returned;
  std::vector<JobDelivery> deliveries;
  std::string digest;      // SHA-256 of the master; empty: not known yet
  int digest_version = 0;  // of the master it was found for
  std::string wanted;      // SHA-256 the reopened job's master had; empty: any
};

// job_sheet.cpp
std::string digest_of(const Bytes& bytes);  // SHA-256
// With a paper chosen.
Job job_of(const App& app);
void take_up(App& app, const Job& job);  // all but the recipe
void note_delivery(App& app, const DeliveryResult& result, const std::string& sha256,
                   const std::string& paper, const print::PrintPlan& plan);
bool digest_wanted(const App& app);
void ask_digest(App& app);
bool take_digest(App& app, const Json& json);
bool take_job(App& app, const Json& json, const std::string& name);
void draw_job_sheet(App& app);  // leaf_job.cpp
enum class JobFile { page, job };
void save_job(App& app, JobFile kind);

}  // namespace proofleaf::shell
