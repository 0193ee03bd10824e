/**
 * Proportions of a standing adult as fractions of body height, for estimating what is not seen.
 * Segment lengths after Drillis and Contini (1966) as reproduced in Winter, "Biomechanics and Motor Control of Human
 * Movement"; values from memory. Face proportions (eyes halfway down the head) are common practice in drawing, no source.
 */
export const PROPORTIONS = {
  shoulderToHip: 0.288,
  hipToKnee: 0.245,
  kneeToAnkle: 0.246,
  ankleToSole: 0.039,
  shoulderToElbow: 0.186,
  elbowToWrist: 0.146,
  wristToFingertip: 0.108,
  eyesToShoulder: 0.118,
  eyesToHeadTop: 0.08,
  eyesToChin: 0.062,
} as const;
