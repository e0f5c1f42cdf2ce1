// What the worker's two bridge files share.
#pragma once

#include "imports.h"
#include "job/work.h"

namespace proofleaf::web {

// The files named for the request to come.
WorkFiles& request_files();

// Tells the worker's JavaScript an answer or what failed.
void tell(const Result<Answer>& answer);
void tell(const Error& error);

}  // namespace proofleaf::web
