// The words for a client's offer and answer. %s, %d and %.1f stand for names and numbers.
#pragma once

#include "said.h"

namespace proofleaf::shell::words {

inline constexpr Words kForClient = "For a client";
inline constexpr Words kOfferToClient = "Let a client choose";
inline constexpr Words kOfferHelp =
    "One link, or one file, with a small picture, up to four papers and their proofs. It is opened "
    "in any browser without anything installed, and nothing of it is kept anywhere else.";
inline constexpr Words kOfferNeeds = "It takes a picture and papers to make an offer.";
inline constexpr Words kOfferPapers = "Papers, up to four";
inline constexpr Words kOfferPaperHelp = "Shown printed %s.";
inline constexpr Words kOfferFull = "Four are chosen; take one out first.";
inline constexpr Words kOfferDescription = "What the client reads of it";
inline constexpr Words kOfferTexts = "Words";
inline constexpr Words kOfferTitle = "Title";
inline constexpr Words kOfferNote = "A note to the client";
inline constexpr Words kOfferSizes = "Sizes and prices";
inline constexpr Words kOfferSizesHelp =
    "Written as you like. With a unit, as in 60 x 40 cm, the client also sees it on a wall.";
inline constexpr Words kOfferSize = "Size %d";
inline constexpr Words kOfferPrice = "Price %d";
inline constexpr Words kAddSize = "Add a size";
inline constexpr Words kDropSize = "Take the last one off";
inline constexpr Words kOfferEnds = "Last day it holds";
inline constexpr Words kOfferEndsHelp = "Year-month-day, such as 2026-12-31; empty: for good.";
inline constexpr Words kOfferLock = "Passphrase, if it is to be locked";
inline constexpr Words kOfferLockHelp =
    "The whole offer is then readable only with it. Tell it on another way than the link takes.";
inline constexpr Words kMakeLink = "Make the link";
inline constexpr Words kMakeOfferFile = "Make a file to attach";
inline constexpr Words kMakingOffer = "Making the offer";
inline constexpr Words kOfferBusy = "The offer is being made";
inline constexpr Words kLocking = "Locking the offer";
inline constexpr Words kLinkReady = "The link is ready: %d of at most %d letters.";
inline constexpr Words kLinkHolds =
    "A picture of %u × %u pixels; its proofs are off the full ones by %.1f ΔE00 in the mean and "
    "%.1f "
    "at most.";
inline constexpr Words kLinkLocked = " It opens with the passphrase only.";
inline constexpr Words kLinkBreaks =
    "Some mail programs and messengers cut or break links of more than about 2,000 letters (common "
    "practice, no source): send it to yourself first. The file always arrives whole.";
inline constexpr Words kLinkOnlyHere =
    "This page is served on this computer only, and so the link opens on this computer only. Send "
    "the file instead.";
inline constexpr Words kLinkOld = "Something was changed since; make it again.";
inline constexpr Words kCopyLink = "Copy the link";
inline constexpr Words kCopied = "Copied.";
inline constexpr Words kNotCopied = "The browser did not let the link be copied. Make the file.";
inline constexpr Words kOfferFileMade = "%s is made. It opens in any browser, from a disk too.";
inline constexpr Words kAnswerBack = "When the answer is back";
inline constexpr Words kAnswerHelp =
    "Paste the client's message here, or open the link in it: this page then shows the answer.";
inline constexpr Words kAnswerField = "The answer";
inline constexpr Words kReadAnswer = "Read it";
inline constexpr Words kAnswerChoice = "The client chose %s.";
inline constexpr Words kAnswerNote = "And wrote: %s";
inline constexpr Words kAnswerFits = "It answers your offer of %s.";
inline constexpr Words kAnswerOld =
    "It answers an earlier state of this offer, made on %s; the newest was made on %s.";
inline constexpr Words kAnswerWithdrawn = "The newest state of the offer no longer has %s.";
inline constexpr Words kAnswerLate = "The offer held until %s.";
inline constexpr Words kAnswerGone = "%s is not among the papers at hand.";
inline constexpr Words kAnswerStranger =
    "This browser does not know the offer it answers: it was made in another one, or long ago. The "
    "answer chooses its paper number %d%s.";
inline constexpr Words kAnswerStrangerSize = " and its size number %d";
inline constexpr Words kSizeFor = "%s for %s";
inline constexpr Words kPrintOnChoice = "Print on %s";

}  // namespace proofleaf::shell::words
