// The words for a client's offer and answer. %s, %d and %.1f stand for names and numbers.
#pragma once

namespace proofleaf::shell::words {

inline constexpr char kForClient[] = "For a client";
inline constexpr char kOfferToClient[] = "Let a client choose";
inline constexpr char kOfferHelp[] =
    "One link, or one file, with a small picture, up to four papers and their proofs. It is opened "
    "in any browser without anything installed, and nothing of it is kept anywhere else.";
inline constexpr char kOfferNeeds[] = "It takes a picture and papers to make an offer.";
inline constexpr char kOfferPapers[] = "Papers, up to four";
inline constexpr char kOfferPaperHelp[] = "Shown printed %s.";
inline constexpr char kOfferFull[] = "Four are chosen; take one out first.";
inline constexpr char kOfferDescription[] = "What the client reads of it";
inline constexpr char kOfferTexts[] = "Words";
inline constexpr char kOfferTitle[] = "Title";
inline constexpr char kOfferNote[] = "A note to the client";
inline constexpr char kOfferSizes[] = "Sizes and prices";
inline constexpr char kOfferSizesHelp[] =
    "Written as you like. With a unit, as in 60 x 40 cm, the client also sees it on a wall.";
inline constexpr char kOfferSize[] = "Size %d";
inline constexpr char kOfferPrice[] = "Price %d";
inline constexpr char kAddSize[] = "Add a size";
inline constexpr char kDropSize[] = "Take the last one off";
inline constexpr char kOfferEnds[] = "Last day it holds";
inline constexpr char kOfferEndsHelp[] = "Year-month-day, such as 2026-12-31; empty: for good.";
inline constexpr char kOfferLock[] = "Passphrase, if it is to be locked";
inline constexpr char kOfferLockHelp[] =
    "The whole offer is then readable only with it. Tell it on another way than the link takes.";
inline constexpr char kMakeLink[] = "Make the link";
inline constexpr char kMakeOfferFile[] = "Make a file to attach";
inline constexpr char kMakingOffer[] = "Making the offer";
inline constexpr char kOfferBusy[] = "The offer is being made";
inline constexpr char kLocking[] = "Locking the offer";
inline constexpr char kLinkReady[] = "The link is ready: %d of at most %d letters.";
inline constexpr char kLinkHolds[] =
    "A picture of %u × %u pixels; its proofs are off the full ones by %.1f ΔE00 in the mean and "
    "%.1f "
    "at most.";
inline constexpr char kLinkLocked[] = " It opens with the passphrase only.";
inline constexpr char kLinkBreaks[] =
    "Some mail programs and messengers cut or break links of more than about 2,000 letters (common "
    "practice, no source): send it to yourself first. The file always arrives whole.";
inline constexpr char kLinkOnlyHere[] =
    "This page is served on this computer only, and so the link opens on this computer only. Send "
    "the file instead.";
inline constexpr char kLinkOld[] = "Something was changed since; make it again.";
inline constexpr char kCopyLink[] = "Copy the link";
inline constexpr char kCopied[] = "Copied.";
inline constexpr char kNotCopied[] = "The browser did not let the link be copied. Make the file.";
inline constexpr char kOfferFileMade[] = "%s is made. It opens in any browser, from a disk too.";
inline constexpr char kAnswerBack[] = "When the answer is back";
inline constexpr char kAnswerHelp[] =
    "Paste the client's message here, or open the link in it: this page then shows the answer.";
inline constexpr char kAnswerField[] = "The answer";
inline constexpr char kReadAnswer[] = "Read it";
inline constexpr char kAnswerChoice[] = "The client chose %s.";
inline constexpr char kAnswerNote[] = "And wrote: %s";
inline constexpr char kAnswerFits[] = "It answers your offer of %s.";
inline constexpr char kAnswerOld[] =
    "It answers an earlier state of this offer, made on %s; the newest was made on %s.";
inline constexpr char kAnswerWithdrawn[] = "The newest state of the offer no longer has %s.";
inline constexpr char kAnswerLate[] = "The offer held until %s.";
inline constexpr char kAnswerGone[] = "%s is not among the papers at hand.";
inline constexpr char kAnswerStranger[] =
    "This browser does not know the offer it answers: it was made in another one, or long ago. The "
    "answer chooses its paper number %d%s.";
inline constexpr char kAnswerStrangerSize[] = " and its size number %d";
inline constexpr char kPrintOnChoice[] = "Print on %s";

}  // namespace proofleaf::shell::words
